import { join } from 'node:path';
import { listName } from '../disk/folder.ts';
import type { MadeFile } from '../files/named.ts';
import { complain, print } from './terminal.ts';

/** Prints each file that was written with what it holds and its cell; names on standard error those that an earlier run left. */
export function sayWritten(folder: string, files: readonly MadeFile[], stale: readonly string[]): void {
  for (const { file, cell, title } of files)
    print(`${join(folder, file)}: ${title === '' ? '' : `${title}, `}cell ${cell + 1}\n`);
  for (const file of stale)
    complain(
      `washboard: ${join(folder, file)} is from an earlier run and is no longer made; ${listName} lists it until it is deleted.\n`,
    );
}
