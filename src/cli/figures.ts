import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { themes } from '../charts/theme.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { shownByCell } from './shown.ts';
import { understandWords } from './words.ts';
import { wrong } from './wrong.ts';

/** `washboard figures`: every chart as an SVG file; exit codes as of `run`. */
export async function figures(words: readonly string[]): Promise<number> {
  const asked = understandWords(words, ['root', 'out', 'format']);
  if (typeof asked === 'string') return wrong(asked);
  const { positionals, values } = asked;
  if (positionals.length !== 1) return wrong('name one notebook whose figures to write.');
  if (values.out === undefined) return wrong('say with --out DIR where the figures go.');
  if (values.format !== undefined && values.format !== 'svg')
    return wrong(`figures are written as svg, not as "${values.format}".`, false);
  const notebook = openNotebook(positionals[0], values.root);
  if (typeof notebook === 'string') return wrong(notebook, false);
  const { report } = await runWhole(notebook);
  const { toSvg } = await import('../report/svg.ts');
  mkdirSync(values.out, { recursive: true });
  for (const [cell, outputs] of shownByCell(report)) {
    const charts = outputs.flatMap(({ parts }) => parts.filter((part) => part.type === 'chart'));
    for (const [index, chart] of charts.entries()) {
      const file = join(
        values.out,
        `cell-${String(cell + 1).padStart(2, '0')}${charts.length > 1 ? `-${index + 1}` : ''}.svg`,
      );
      writeFileSync(file, await toSvg(chart, themes.light));
      process.stdout.write(`${file}: ${chart.title}\n`);
    }
  }
  return report.ok ? 0 : 1;
}
