import type { Files } from '../values/ports.ts';
import { digest } from './bytes.ts';
import { diskFiles } from './files.ts';
import type { KeptStore } from './keptStore.ts';
import { readerIn } from './readAll.ts';
import type { ReadingThreads } from './readingThreads.ts';
import { densitiesIn } from './threadDensities.ts';

/** What a host on a machine with a disk may have besides. */
interface DiskOptions {
  /** What reads recordings beside this thread. */
  readonly threads?: ReadingThreads | undefined;
  /** Where results are kept from one run of the program to the next. */
  readonly kept?: KeptStore | undefined;
}

/** The engine's host on a machine with a disk. */
export function diskHost(
  folder: string,
  root: string,
  { threads, kept }: DiskOptions = {},
): { files: Files; digest: (text: string) => string; kept?: KeptStore } {
  const onDisk = diskFiles(folder, root, readerIn(threads), kept);
  const files = threads === undefined ? onDisk : { ...onDisk, densities: densitiesIn(threads) };
  return { files, digest, ...(kept === undefined ? {} : { kept }) };
}
