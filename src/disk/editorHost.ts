import type { Files } from '../values/ports.ts';
import type { EditorFiles } from './editorFiles.ts';
import { refuse } from './messages.ts';
import { digestAlone } from './sha256.ts';
import { wholeFiles } from './wholeFiles.ts';

/** The engine's host of a notebook in a file system that an editor stands for; it needs nothing of the machine. */
export const editorHost = (
  files: EditorFiles,
  folder: string,
  root: string,
): { files: Files; digest: (text: string) => string } => ({
  files: wholeFiles(files, folder, root),
  digest: digestAlone,
});

/** The engine's host of a notebook that lies in no folder yet: it runs all but what needs a file. */
export function unsavedHost(digest: (text: string) => string = digestAlone): {
  files: Files;
  digest: (text: string) => string;
} {
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
