import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ChartPart } from '../charts/output.ts';
import { themes } from '../charts/theme.ts';
import { parsed, texts } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { shownByCell } from './shown.ts';

/** `washboard figures`: every chart as an SVG file; exit codes as of `run`. */
export async function figures(args: readonly string[]): Promise<number> {
  const given = parsed(args, texts('root', 'out', 'format'));
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1)
    return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'whose figures to write' }));
  const { out, format = 'svg', root } = values;
  if (out === undefined) return exitFor(refuse('usage.figures', {}));
  if (format !== 'svg') return exitFor(refuse('figures.format', { format }));
  const notebook = openNotebook(positionals[0], root);
  if (!notebook.ok) return exitFor(notebook);
  const { report } = await runWhole(notebook.value);
  mkdirSync(out, { recursive: true });
  for (const [cell, outputs] of shownByCell(report))
    await writeCharts(
      outputs.flatMap(({ parts }) => parts.filter((part) => part.type === 'chart')),
      join(out, `cell-${String(cell + 1).padStart(2, '0')}`),
    );
  return report.ok ? 0 : 1;
}

/** @param path of a cell's only chart, without its ending; of several, each has its number added */
async function writeCharts(charts: readonly ChartPart[], path: string): Promise<void> {
  // Loaded only here: drawing would slow every other command's start.
  const { toSvg } = await import('../report/svg.ts');
  for (const [index, chart] of charts.entries()) {
    const file = `${path}${charts.length > 1 ? `-${index + 1}` : ''}.svg`;
    writeFileSync(file, await toSvg(chart, themes.light));
    process.stdout.write(`${file}: ${chart.title}\n`);
  }
}
