import { basename } from 'node:path';
import { reportJson, type ProseJson } from '../engine/json.ts';
import type { NumberCheck } from '../engine/proseNumbers.ts';
import { runSchema } from '../engine/jsonSchema.ts';
import { show } from '../engine/show.ts';
import type { RunReport } from '../engine/result.ts';
import { success, type Result } from '../result/result.ts';
import { parsed, projectOptions, texts, type ProjectOptions } from './args.ts';
import { differingNumbers } from './differingNumbers.ts';
import { exitFor } from './exit.ts';
import { jsonPieces } from './jsonPieces.ts';
import { refuse } from './messages.ts';
import { openNotebook, type OpenNotebook } from './notebookFile.ts';
import { cellIn, runCell } from './oneCell.ts';
import { runAll, type HowRun, type WholeRun } from './runWhole.ts';
import { planFor, planShares, refusedGone, sayMissing, sharesAsked, workOnShare, type SharesAsked } from './shares.ts';
import { complain, print } from './terminal.ts';

interface RunOptions {
  readonly path: string;
  readonly json: boolean;
  readonly cell: string | undefined;
  readonly project: ProjectOptions;
  readonly shares: SharesAsked | undefined;
}

/** `washboard run`: 0; 3 where shares are missing; 75 where a share may be tried again; 1 if a statement failed or a number in the prose differs; 2 for wrong usage or an unreadable notebook. */
export async function run(args: readonly string[]): Promise<number> {
  if (args.length === 1 && args[0] === '--schema') {
    print(`${JSON.stringify(runSchema(), null, 2)}\n`);
    return 0;
  }
  const given = options(args);
  if (!given.ok) return exitFor(given);
  const { path, json, project, shares } = given.value;
  const opened = openNotebook(path, project, { withHistory: true });
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const wanted = cellIn(notebook, given.value.cell);
  if (!wanted.ok) return exitFor(wanted);
  const cell = wanted.value;
  if (shares?.what === 'plan') return planShares(notebook, shares.shares, project.cache);
  if (shares?.what === 'share') return workOnShare(notebook, shares, project.cache);
  const found =
    shares?.what === 'collect'
      ? await collected(notebook, project, { undrawn: json })
      : await wholeOrCell(notebook, cell, { undrawn: json });
  if (typeof found === 'number') return found;
  const { report, numbers } = found;
  if (json) {
    const data = reportJson(basename(path), notebook.cells, report, proseOf(notebook, numbers));
    for (const piece of jsonPieces(data)) print(piece);
    print('\n');
  } else printCells(notebook, report, cell);
  const differing = differingNumbers(notebook, numbers);
  differing.forEach(complain);
  return report.ok && differing.length === 0 ? 0 : 1;
}

/** Of the prose nothing is told with one cell. */
const wholeOrCell = async (notebook: OpenNotebook, cell: number | undefined, how: HowRun): Promise<WholeRun> =>
  cell === undefined ? runAll(notebook, how) : { report: await runCell(notebook, cell, how), numbers: [] };

/** What the shares kept, put together; an exit code where some of it is missing. */
async function collected(notebook: OpenNotebook, { cache }: ProjectOptions, how: HowRun): Promise<WholeRun | number> {
  const plan = await planFor(notebook, cache);
  if (!plan.ok) return exitFor(plan);
  const gone = await refusedGone(plan.value, notebook);
  if (gone !== undefined) return exitFor(gone);
  const missing = new Set<string>();
  const whole = await runAll(notebook, { ...how, collecting: (path) => void missing.add(path) });
  return missing.size > 0 ? sayMissing(plan.value, missing) : whole;
}

const proseOf = ({ numbers }: OpenNotebook, found: readonly NumberCheck[]): readonly ProseJson[] =>
  found.map((check, at) => ({ asked: numbers[at], line: numbers[at].line, check }));

function options(args: readonly string[]): Result<RunOptions> {
  const given = parsed(args, {
    ...projectOptions,
    ...texts('cell', 'plan', 'share'),
    json: { type: 'boolean' },
    collect: { type: 'boolean' },
  });
  if (!given.ok) return given;
  const { values, positionals } = given.value;
  if (positionals.length !== 1)
    return refuse('usage.notebook', { article: positionals.length === 0 ? 'a' : 'one', purpose: 'to run' });
  const { json = false, cell, plan, share, collect, ...project } = values;
  const shares = sharesAsked({ plan, share, collect });
  if (!shares.ok) return shares;
  if (shares.value !== undefined && (cell !== undefined || project['no-cache'] === true))
    return refuse('usage.whole', {});
  return success({ path: positionals[0], json, cell, project, shares: shares.value });
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
