import { join } from 'node:path';
import type { ChartPart } from '../charts/output.ts';
import { themes } from '../charts/theme.ts';
import { makeFolder, writeProduct, type Surroundings } from '../disk/writing.ts';
import { success, type Result } from '../result/result.ts';
import { parsed, texts } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { keptOf } from './kept.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { shownByCell } from './shown.ts';
import { print } from './terminal.ts';

/** `washboard figures`: every chart as an SVG file; exit codes as of `run`. */
export async function figures(args: readonly string[]): Promise<number> {
  const given = parsed(args, { ...texts('root', 'out', 'format'), force: { type: 'boolean' } });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1)
    return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'whose figures to write' }));
  const { out, format = 'svg', root, force = false } = values;
  if (out === undefined) return exitFor(refuse('usage.figures', {}));
  if (format !== 'svg') return exitFor(refuse('figures.format', { format }));
  const notebook = openNotebook(positionals[0], root);
  if (!notebook.ok) return exitFor(notebook);
  const { report } = await runWhole(notebook.value);
  const folder = makeFolder(out);
  if (!folder.ok) return exitFor(folder);
  const around = { force, kept: keptOf(notebook.value, report) };
  for (const [cell, outputs] of shownByCell(report)) {
    const charts = outputs.flatMap(({ parts }) => parts.filter((part) => part.type === 'chart'));
    const written = await writeCharts(charts, join(out, `cell-${String(cell + 1).padStart(2, '0')}`), around);
    if (!written.ok) return exitFor(written);
  }
  return report.ok ? 0 : 1;
}

/** By this line below a picture it is known as one of ours, which a later one may replace. */
const mark = '<!-- Made by Washboard. -->';

/** @param path of a cell's only chart, without its ending; of several, each has its number added */
async function writeCharts(charts: readonly ChartPart[], path: string, around: Surroundings): Promise<Result<void>> {
  // Loaded only here: drawing would slow every other command's start.
  const { toSvg } = await import('../report/svg.ts');
  for (const [index, chart] of charts.entries()) {
    const file = `${path}${charts.length > 1 ? `-${index + 1}` : ''}.svg`;
    const text = `${await toSvg(chart, themes.light)}\n${mark}\n`;
    const isOurs = (before: string): boolean => before.trimEnd().endsWith(mark);
    const written = writeProduct({ path: file, text, kind: 'figure', isOurs }, around);
    if (!written.ok) return written;
    print(`${file}: ${chart.title}\n`);
  }
  return success(undefined);
}
