import type { ByteSource, SourceFault } from '../readers/recording.ts';
import { readChecked } from '../readers/readChecked.ts';
import { withSamplesOf } from '../readers/takenChannels.ts';
import { success } from '../result/result.ts';
import type { FileIdentity, Files, ReadRecording, WantedRecording, Watch } from '../values/ports.ts';
import { editorDisk } from './editorDisk.ts';
import type { EditorBytes, EditorFiles } from './editorFiles.ts';
import { pathsOf } from './paths.ts';
import { hashOf } from './sha256.ts';

/** Files from so many bytes on are not read: there is no way to read a part of one. */
const most = 2 ** 30;

interface Known {
  readonly stamp: string;
  readonly identity: FileIdentity;
}

interface Whole {
  readonly source: ByteSource;
  /** Undefined where it could not be read. */
  readonly identity: FileIdentity | undefined;
}

/**
 * A project's files in a file system that an editor stands for, read only and each as a whole; what may be read is as on a disk.
 *
 * @param folder the notebook's folder, an absolute path with `/`
 * @param root the project's folder likewise
 */
export function wholeFiles(files: EditorFiles, folder: string, root: string): Files {
  const disk = editorDisk(files, root);
  const known = new Map<string, Known>();

  async function stampOf(address: string): Promise<string | undefined> {
    const found = await files.stat(address);
    // Without a time nothing tells whether it was written.
    return found === undefined || found.changed === 0 ? undefined : `${found.size} ${found.changed}`;
  }

  async function whole(path: string): Promise<Whole> {
    const address = disk.resolve(folder, path);
    const found = await files.stat(address);
    const stamp = await stampOf(address);
    const read: EditorBytes = (found?.size ?? 0) >= most ? { refused: 'EFBIG' } : await files.read(address);
    if ('refused' in read)
      return {
        source: failing(path, found?.size ?? 0, { kind: 'refused', system: read.refused }),
        identity: undefined,
      };
    const { bytes } = read;
    const identity = { bytes: bytes.length, sha256: await hashOf(bytes) };
    if (stamp !== undefined && stamp === (await stampOf(address))) known.set(address, { stamp, identity });
    return { source: inMemory(path, bytes), identity };
  }

  async function readOne(
    wanted: WantedRecording,
    watch: Watch,
    share: (fraction: number) => number,
  ): Promise<ReadRecording> {
    const { path, options, channels, identity: told } = wanted;
    const { source, identity } = await whole(path);
    const isOther = told !== undefined && identity !== undefined && told.sha256 !== identity.sha256;
    const recording = await readChecked(isOther ? changed(source) : source, options, {
      cancelled: watch.cancelled,
      progress: (fraction) => watch.progress(share(fraction), `reading ${path}`),
    });
    return {
      recording: recording.ok ? success(withSamplesOf(recording.value, channels, options.tacho)) : recording,
      identity,
    };
  }

  async function knownOf(path: string): Promise<FileIdentity | undefined> {
    const address = disk.resolve(folder, path);
    const before = known.get(address);
    return before !== undefined && before.stamp === (await stampOf(address)) ? before.identity : undefined;
  }

  return {
    expand: (pattern, of) => pathsOf({ disk, folder, root }, pattern, of),
    known: knownOf,
    async identify(path) {
      const identity = (await knownOf(path)) ?? (await whole(path)).identity;
      if (identity === undefined) throw new Error(`${path} can't be read`);
      return identity;
    },
    async open(path, told) {
      const { source, identity } = await whole(path);
      return told !== undefined && identity !== undefined && told.sha256 !== identity.sha256 ? changed(source) : source;
    },
    read(wanted, watch) {
      // One after the other: each is held in memory as a whole.
      let before: Promise<unknown> = Promise.resolve();
      return wanted.map((one, at) => {
        const share = (fraction: number): number => (at + fraction) / wanted.length;
        const reading = before.then(() => readOne(one, watch, share));
        before = reading.catch(() => undefined);
        return reading;
      });
    },
  };
}

const inMemory = (path: string, bytes: Uint8Array): ByteSource => ({
  path,
  size: bytes.length,
  read: (position, length) => Promise.resolve(bytes.subarray(position, position + length)),
});

const failing = (path: string, size: number, fault: SourceFault): ByteSource => ({
  path,
  size,
  fault: () => fault,
  read: () => Promise.resolve(new Uint8Array(0)),
});

/** Of bytes that are others than was told none are given. */
const changed = ({ path, size }: ByteSource): ByteSource => failing(path, size, { kind: 'changed' });
