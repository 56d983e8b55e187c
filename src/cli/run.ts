import { basename } from 'node:path';
import { reportJson, type ProseJson } from '../engine/json.ts';
import type { JudgedNumber } from '../engine/proseNumbers.ts';
import { runSchema } from '../engine/jsonSchema.ts';
import { show } from '../engine/show.ts';
import type { RunReport } from '../engine/result.ts';
import { success, type Result } from '../result/result.ts';
import { parsed, projectOptions, type ProjectOptions } from './args.ts';
import { differingNumbers } from './differingNumbers.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { openNotebook, type OpenNotebook } from './notebookFile.ts';
import { cellIn, runCell } from './oneCell.ts';
import { runAll, type WholeRun } from './runWhole.ts';
import { complain, print } from './terminal.ts';

interface RunOptions {
  readonly path: string;
  readonly json: boolean;
  readonly cell: string | undefined;
  readonly project: ProjectOptions;
}

/** `washboard run`: 0; 1 if a statement failed or a number in the prose differs; 2 for wrong usage or an unreadable notebook. */
export async function run(args: readonly string[]): Promise<number> {
  if (args.length === 1 && args[0] === '--schema') {
    print(`${JSON.stringify(runSchema(), null, 2)}\n`);
    return 0;
  }
  const given = options(args);
  if (!given.ok) return exitFor(given);
  const { path, json, project } = given.value;
  const opened = openNotebook(path, project, { withHistory: true });
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const wanted = cellIn(notebook, given.value.cell);
  if (!wanted.ok) return exitFor(wanted);
  const cell = wanted.value;
  // Of the prose nothing is told with one cell.
  const { report, numbers }: WholeRun =
    cell === undefined ? await runAll(notebook) : { report: await runCell(notebook, cell), numbers: [] };
  if (json)
    print(`${JSON.stringify(reportJson(basename(path), notebook.cells, report, proseOf(notebook, numbers)))}\n`);
  else printCells(notebook, report, cell);
  const differing = differingNumbers(notebook, numbers);
  differing.forEach(complain);
  return report.ok && differing.length === 0 ? 0 : 1;
}

const proseOf = ({ numbers }: OpenNotebook, found: readonly JudgedNumber[]): readonly ProseJson[] =>
  found.map((judged, at) => ({ asked: numbers[at], line: numbers[at].line, judged }));

function options(args: readonly string[]): Result<RunOptions> {
  const given = parsed(args, { ...projectOptions, json: { type: 'boolean' }, cell: { type: 'string' } });
  if (!given.ok) return given;
  const { values, positionals } = given.value;
  if (positionals.length !== 1)
    return refuse('usage.notebook', { article: positionals.length === 0 ? 'a' : 'one', purpose: 'to run' });
  const { json = false, cell, ...project } = values;
  return success({ path: positionals[0], json, cell, project });
}

/** What the cells show, as text: results on standard output, errors on standard error too. */
function printCells(notebook: OpenNotebook, report: RunReport, only: number | undefined): void {
  const lines = new Map<number, readonly string[]>();
  for (const result of report.results) {
    const output = show(result);
    if (output === undefined || (only !== undefined && result.cell !== only && result.error === undefined)) continue;
    const line = notebook.cells[result.cell].line + result.line - 1;
    if (!lines.has(result.cell)) lines.set(result.cell, notebook.cells[result.cell].text.split('\n'));
    const source =
      lines
        .get(result.cell)
        ?.at(result.line - 1)
        ?.trim() ?? '';
    const head = `── cell ${result.cell + 1}, line ${line}: ${source} `;
    const text = `${head.padEnd(72, '─')}\n${output.text}\n\n`;
    print(text);
    if (result.error !== undefined) complain(`${notebook.path}:${line}: ${result.error.message}\n`);
  }
}
