import type { ByteSource, ReadWatch, SourceFault } from '../readers/recording.ts';
import { readChecked } from '../readers/readChecked.ts';
import { withSamplesOf } from '../readers/takenChannels.ts';
import { success } from '../result/result.ts';
import type { FileIdentity, Files, ReadRecording, WantedRecording } from '../values/ports.ts';
import { editorDisk } from './editorDisk.ts';
import type { EditorFiles, EditorStat } from './editorFiles.ts';
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
  const wholes = new Wholes(files, (path) => disk.resolve(folder, path));
  return {
    expand: (pattern, of) => pathsOf({ disk, folder, root }, pattern, of),
    known: (path) => wholes.known(path),
    async identify(path) {
      const identity = (await wholes.known(path)) ?? (await wholes.read(path)).identity;
      if (identity === undefined) throw new Error(`${path} can't be read`);
      return identity;
    },
    open: async (path, expected) => heldTo(await wholes.read(path), expected),
    read(wanted, watch) {
      // One after the other: each is held in memory as a whole.
      let before: Promise<unknown> = Promise.resolve();
      return wanted.map((one, at) => {
        const progress = (fraction: number): void =>
          watch.progress((at + fraction) / wanted.length, `reading ${one.path}`);
        const reading = before.then(async () =>
          recordingOf(await wholes.read(one.path), one, { cancelled: watch.cancelled, progress }),
        );
        before = reading.catch(() => undefined);
        return reading;
      });
    },
  };
}

async function recordingOf(whole: Whole, wanted: WantedRecording, watch: ReadWatch): Promise<ReadRecording> {
  const { options, channels, identity: expected } = wanted;
  const recording = await readChecked(heldTo(whole, expected), options, watch);
  return {
    recording: recording.ok ? success(withSamplesOf(recording.value, channels, options.tacho)) : recording,
    identity: whole.identity,
  };
}

/** Files read as a whole, and what is known of them without reading. */
class Wholes {
  readonly #files: EditorFiles;
  readonly #address: (path: string) => string;
  readonly #known = new Map<string, Known>();

  constructor(files: EditorFiles, address: (path: string) => string) {
    this.#files = files;
    this.#address = address;
  }

  async known(path: string): Promise<FileIdentity | undefined> {
    const address = this.#address(path);
    const before = this.#known.get(address);
    if (before === undefined) return undefined;
    return before.stamp === stampOf(await this.#files.stat(address)) ? before.identity : undefined;
  }

  async read(path: string): Promise<Whole> {
    const address = this.#address(path);
    const before = await this.#files.stat(address);
    const size = before?.size ?? 0;
    const read = size >= most ? { refused: 'EFBIG' } : await this.#files.read(address);
    if ('refused' in read)
      return { source: failing(path, size, { kind: 'refused', system: read.refused }), identity: undefined };
    const { bytes } = read;
    const identity = { bytes: bytes.length, sha256: await hashOf(bytes) };
    const stamp = stampOf(before);
    if (stamp !== undefined && stamp === stampOf(await this.#files.stat(address)))
      this.#known.set(address, { stamp, identity });
    return { source: inMemory(path, bytes), identity };
  }
}

/** What tells that a file was not written since; undefined where nothing does, as without a time. */
const stampOf = (found: EditorStat | undefined): string | undefined =>
  found === undefined || found.changed === 0 ? undefined : `${found.size} ${found.changed}`;

/** The bytes, if they are those that were told of: of others none are given. */
const heldTo = ({ source, identity }: Whole, expected: FileIdentity | undefined): ByteSource =>
  expected === undefined || identity === undefined || expected.sha256 === identity.sha256
    ? source
    : failing(source.path, source.size, { kind: 'changed' });

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
