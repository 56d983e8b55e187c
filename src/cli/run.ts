import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { reportJson } from '../engine/json.ts';
import { show } from '../engine/show.ts';
import type { RunReport } from '../engine/result.ts';
import { openNotebook, type OpenNotebook } from './notebookFile.ts';
import { terminalWatch } from './progress.ts';
import { wrong } from './wrong.ts';

interface Asked {
  readonly path: string;
  readonly json: boolean;
  readonly cell: number | undefined;
  readonly root: string | undefined;
}

/** `washboard run`: 0; 1 if a statement failed; 2 for wrong usage or an unreadable notebook. */
export async function run(words: readonly string[]): Promise<number> {
  const asked = understand(words);
  if (typeof asked === 'string') return wrong(asked);
  const notebook = openNotebook(asked.path, asked.root);
  if (typeof notebook === 'string') return wrong(notebook, false);
  const count = notebook.cells.length;
  if (asked.cell !== undefined && (asked.cell < 1 || asked.cell > count)) {
    return wrong(
      `${asked.path} has ${count} ${count === 1 ? 'cell' : 'cells'}, counted from 1: there is no cell ${asked.cell}.`,
      false,
    );
  }
  const watch = terminalWatch();
  const cells = notebook.cells.map(({ text }) => text);
  const report = await notebook.engine.run(
    { cells, wanted: asked.cell === undefined ? 'all' : [asked.cell - 1] },
    watch,
  );
  watch.done();
  if (asked.json) process.stdout.write(`${JSON.stringify(reportJson(basename(asked.path), notebook.cells, report))}\n`);
  else print(notebook, report, asked.cell);
  return report.ok ? 0 : 1;
}

function understand(words: readonly string[]): Asked | string {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      options: { json: { type: 'boolean' }, cell: { type: 'string' }, root: { type: 'string' } },
      allowPositionals: true,
    });
    if (positionals.length !== 1)
      return positionals.length === 0 ? 'name a notebook to run.' : 'name one notebook to run.';
    if (values.cell !== undefined && !/^\d+$/.test(values.cell))
      return `--cell takes a whole number, not "${values.cell}".`;
    return {
      path: positionals[0],
      json: values.json === true,
      cell: values.cell === undefined ? undefined : Number(values.cell),
      root: values.root,
    };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** What the cells show, as text: results on standard output, errors on standard error too. */
function print(notebook: OpenNotebook, report: RunReport, only: number | undefined): void {
  for (const result of report.results) {
    const output = show(result);
    if (output === undefined || (only !== undefined && result.cell !== only - 1 && result.error === undefined))
      continue;
    const line = notebook.cells[result.cell].line + result.line - 1;
    const source = notebook.cells[result.cell].text.split('\n')[result.line - 1].trim();
    const head = `── cell ${result.cell + 1}, line ${line}: ${source} `;
    const text = `${head.padEnd(72, '─')}\n${output.text}\n\n`;
    process.stdout.write(text);
    if (result.error !== undefined) process.stderr.write(`${notebook.path}:${line}: ${result.error.message}\n`);
  }
}
