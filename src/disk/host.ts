import type { Files } from '../values/ports.ts';
import { digest } from './bytes.ts';
import { diskFiles } from './files.ts';
import { refuse } from './messages.ts';

/** The engine's host on a machine with a disk. */
export function diskHost(folder: string, root: string): { files: Files; digest: (text: string) => string } {
  return { files: diskFiles(folder, root), digest };
}

/** The engine's host of a notebook that lies in no folder yet: it runs all but what needs a file. */
export function unsavedHost(): { files: Files; digest: (text: string) => string } {
  const none = (): Promise<never> => Promise.reject(new Error('a notebook without a folder has no files'));
  return {
    files: {
      expand: () => Promise.resolve(refuse('file.unsaved', {}, 'files')),
      open: none,
      identify: none,
    },
    digest,
  };
}
