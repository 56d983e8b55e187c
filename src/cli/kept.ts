import { dirname, resolve } from 'node:path';
import type { WriteOptions } from '../disk/writing.ts';
import type { RunReport } from '../engine/result.ts';
import { recordPath } from '../result/fileNames.ts';
import type { OpenNotebook } from './notebookFile.ts';

/** What nothing that is made from a notebook may be written over: itself, its raw files and its record. */
export function keptOf({ path }: OpenNotebook, { sources }: RunReport): WriteOptions['kept'] {
  const folder = dirname(resolve(path));
  return [
    { path, as: 'notebook' },
    { path: recordPath(path), as: 'record' },
    ...sources.map((source) => ({ path: resolve(folder, source.path), as: 'source' as const })),
  ];
}
