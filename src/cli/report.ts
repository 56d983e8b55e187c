import { readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, extname, resolve } from 'node:path';
import { methodsOf } from '../analysis/evidence/methods.ts';
import { isRecordingFile } from '../disk/recordings.ts';
import { writeProduct } from '../disk/writing.ts';
import type { RunReport } from '../engine/result.ts';
import { notebookStem } from '../result/fileNames.ts';
import type { Piece } from '../report/page.ts';
import { parsed, projectOptions, texts } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { keptOf } from './kept.ts';
import { openNotebook, type OpenNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { shownByCell } from './shown.ts';
import { print } from './terminal.ts';

/** `washboard report`: one self-contained page; exit codes as of `run`. */
export async function report(args: readonly string[]): Promise<number> {
  const given = parsed(args, {
    ...projectOptions,
    ...texts('out'),
    answer: { type: 'boolean' },
    force: { type: 'boolean' },
  });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1) return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'to report' }));
  const opened = openNotebook(positionals[0], values, { withHistory: true });
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const { report: run, record } = await runWhole(notebook);
  const shown = shownByCell(run);
  let cell = 0;
  const pieces = notebook.parts.map(({ kind, text }): Piece =>
    kind === 'code' ? { kind: 'cell', text, outputs: shown.get(cell++) ?? [] } : { kind: 'prose', text },
  );
  // Loaded only here: drawing would slow every other command's start.
  const [{ generator, reportPage }, { answerPieces }, { ownFaces }] = await Promise.all([
    import('../report/page.ts'),
    import('../report/answer.ts'),
    import('../files/fonts.ts'),
  ]);
  const whole = { file: basename(notebook.path), pieces, sources: run.sources, tool: record.tool };
  const short = values.answer === true;
  const reported = short ? { ...whole, pieces: answerPieces(whole, methodsBehind(run)) } : whole;
  const { regular, bold } = ownFaces();
  const faces = { regular: inBase64(regular), bold: inBase64(bold) };
  const page = await reportPage(reported, pictures(notebook), faces);
  const ending = short ? '.answer.html' : '.html';
  const out = values.out ?? notebookStem(notebook.path) + ending;
  const written = writeProduct(
    {
      path: out,
      content: page,
      kind: 'report page',
      isOurs: (found) => found.includes(generator),
      // A run that failed may not name all of its raw files.
      isForced: (found) => !isRecordingFile(out, found),
    },
    { force: values.force ?? false, kept: keptOf(notebook, run) },
  );
  if (!written.ok) return exitFor(written);
  print(`${out}\n`);
  return run.ok ? 0 : 1;
}

const inBase64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

/** How the comparisons and verdicts of a run were come by; of a run without any, how all that it gave was. */
function methodsBehind({ results }: RunReport): string {
  const values = results.flatMap(({ value }) => (value === undefined ? [] : [value]));
  const compared = values.filter(({ kind }) => kind === 'comparison' || kind === 'verdict');
  return methodsOf(compared.length > 0 ? compared : values)
    .parts.map(({ text }) => text)
    .join(' ');
}

const types: ReadonlyMap<string, string> = new Map([
  ['.png', 'image/png'],
  ['.jpg', 'image/jpeg'],
  ['.jpeg', 'image/jpeg'],
  ['.gif', 'image/gif'],
  ['.svg', 'image/svg+xml'],
  ['.webp', 'image/webp'],
]);

/** Pictures beside the notebook go into the page; an address is left out, for the page fetches nothing. */
function pictures({ path, inProject }: OpenNotebook): (source: string) => string | undefined {
  return (source) => {
    const type = types.get(extname(source).toLowerCase());
    if (type === undefined || /^[a-z][a-z0-9+.-]*:/i.test(source)) return undefined;
    try {
      // Whatever a link leads to has to lie in the project, too, and to be a file: a pipe would be waited for.
      const file = realpathSync(resolve(dirname(path), decodeURI(source)));
      if (!inProject(file) || !statSync(file).isFile()) return undefined;
      return `data:${type};base64,${readFileSync(file).toString('base64')}`;
    } catch {
      return undefined;
    }
  };
}
