import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import { diskHistory } from '../disk/history.ts';
import { diskHost } from '../disk/host.ts';
import { projectRoot } from '../disk/project.ts';
import { Engine } from '../engine/engine.ts';
import { cellLanguage, type Notebook, type NotebookCell } from '../notebook/cells.ts';
import { parseNotebook } from '../notebook/parse.ts';
import { proseNumbers, type ProseNumber } from '../notebook/proseNumbers.ts';
import { success, type Result } from '../result/result.ts';
import type { ProjectOptions } from './args.ts';
import { refuse } from './messages.ts';
import { keptResults } from './keptResults.ts';
import { threadsOf } from './threads.ts';

/** A notebook on disk, ready to be run. */
export interface OpenNotebook {
  readonly path: string;
  readonly cells: readonly CodeCell[];
  /** Prose and cells, in order. */
  readonly parts: readonly { readonly kind: 'code' | 'prose'; readonly text: string }[];
  /** The file as it was read. */
  readonly source: Notebook;
  readonly bytes: Uint8Array;
  /** Numbers in the prose that say what they are. */
  readonly numbers: readonly PlacedNumber[];
  readonly engine: Engine;
  /** Whether a real path, all links followed, lies in the project folder. */
  readonly inProject: (path: string) => boolean;
}

/** A number in the prose, and where it stands. */
export interface PlacedNumber extends ProseNumber {
  /** Index of its cell among prose and cells. */
  readonly part: number;
  /** 1-based line in the file. */
  readonly line: number;
}

export interface CodeCell {
  readonly text: string;
  /** 1-based line in the file of the cell's first line. */
  readonly line: number;
}

interface HowToRun {
  /** Whether results may tell what git knows, which another clone need not know: a record must not. */
  readonly withHistory?: boolean;
  /** Whether all is computed anew from the raw files, whatever was kept: what a record stands for. */
  readonly isAnew?: boolean;
}

/** A notebook with its engine; refused where it can't be read or lies outside of its project. */
export function openNotebook(
  path: string,
  { root: rootOption, jobs, cache, 'no-cache': noCache, 'no-git': noGit }: ProjectOptions,
  { withHistory = false, isAnew = false }: HowToRun = {},
): Result<OpenNotebook> {
  if (!existsSync(path)) return refuse('notebook.missing', { path });
  if (statSync(path).isDirectory()) return refuse('notebook.folder', { path });
  if (!statSync(path).isFile()) return refuse('notebook.special', { path });
  const folder = dirname(resolve(path));
  const root = rootOption === undefined ? projectRoot(folder) : resolve(rootOption);
  if (rootOption !== undefined && !existsSync(root)) return refuse('folder.missing', { folder: rootOption });
  const fromRoot = relative(root, folder);
  if (fromRoot === '..' || fromRoot.startsWith(`..${sep}`))
    return refuse('notebook.outside', { path, root: rootOption ?? root });
  const threads = threadsOf(jobs);
  if (!threads.ok) return threads;
  const bytes = readFileSync(path);
  const notebook = parseNotebook(bytes);
  if (!notebook.ok) {
    const { line, message: reason } = notebook.failure;
    return refuse('notebook.unreadable', { path, line, reason });
  }
  const isCell = ({ kind, language }: NotebookCell): boolean =>
    kind === 'code' && (language === undefined || language === cellLanguage);
  const cells = notebook.value.cells.filter(isCell).map(({ text, line }) => ({ text, line: line ?? 1 }));
  const parts = notebook.value.cells.map((cell) => ({
    kind: isCell(cell) ? ('code' as const) : ('prose' as const),
    text: cell.text,
  }));
  // A link's goal is told by its own path, and so is the project's.
  const realRoot = realpathSync(root);
  const inProject = (file: string): boolean =>
    !/^\.\.($|[\\/])/.test(relative(realRoot, file)) && !isAbsolute(relative(realRoot, file));
  const kept = isAnew || noCache === true ? undefined : keptResults(cache);
  const host = {
    ...diskHost(folder, root, { threads: threads.value, kept }),
    ...(withHistory && noGit !== true ? { history: diskHistory(folder) } : {}),
  };
  const source = notebook.value;
  return success({
    path,
    cells,
    parts,
    source,
    bytes,
    numbers: numbersIn(source.cells),
    engine: new Engine(host),
    inProject,
  });
}

const numbersIn = (cells: readonly NotebookCell[]): PlacedNumber[] =>
  cells.flatMap(({ kind, text, line = 1 }, part) =>
    kind === 'code'
      ? []
      : proseNumbers(text).map((number) => ({
          ...number,
          part,
          line: line + text.slice(0, number.mark.from).split('\n').length - 1,
        })),
  );
