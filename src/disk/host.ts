import type { Files } from '../values/ports.ts';
import { digest } from './bytes.ts';
import { diskFiles } from './files.ts';

/** The engine's host on a machine with a disk. */
export function diskHost(folder: string, root: string): { files: Files; digest: (text: string) => string } {
  return { files: diskFiles(folder, root), digest };
}
