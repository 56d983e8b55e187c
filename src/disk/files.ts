import { resolve } from 'node:path';
import type { ByteSource } from '../readers/recording.ts';
import type { FileIdentity, Files } from '../values/ports.ts';
import { heldTo, openFile } from './bytes.ts';
import { Identities } from './identities.ts';
import type { KeptStore } from './keptStore.ts';
import { nodeDisk } from './nodeDisk.ts';
import { pathsOf } from './paths.ts';
import type { RecordingReader } from './readAll.ts';

/**
 * A project's files, read only. Paths are relative to the notebook's folder and must stay inside the project:
 * absolute paths, `..` beyond the root and links that lead out are refused with a sentence.
 *
 * @param folder the notebook's folder, absolute
 * @param root the project's folder, absolute; `folder` lies in it
 * @param read what reads recordings, in whichever threads
 * @param kept where the files' hashes are kept
 */
export function diskFiles(folder: string, root: string, read?: RecordingReader, kept?: KeptStore): Files {
  const identities = new Identities(kept);
  const absoluteOf = (path: string): string => resolve(folder, path);

  async function open(path: string, identity?: FileIdentity): Promise<ByteSource> {
    const absolute = absoluteOf(path);
    const source = await openFile(absolute, path);
    if (identity === undefined) return source;
    const hashed = await identities.inBlocks(absolute);
    const held = hashed?.sha256 === identity.sha256 ? hashed : undefined;
    // Its time may not tell that a file was written: it is hashed anew the next time.
    return heldTo(source, held, identity.bytes, () => identities.forget(absolute));
  }

  return {
    expand: (pattern, of) => pathsOf({ disk: nodeDisk, folder, root }, pattern, of),
    open,
    identify: (path) => identities.identify(absoluteOf(path)),
    known: (path) => identities.known(absoluteOf(path)),
    ...(read === undefined
      ? {}
      : {
          read: (wanted, watch) =>
            read(
              wanted.map((one) => ({ ...one, absolute: absoluteOf(one.path) })),
              watch,
              identities,
            ),
        }),
  };
}
