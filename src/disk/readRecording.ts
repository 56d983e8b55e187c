import { createHash, type Hash } from 'node:crypto';
import type { BigIntStats } from 'node:fs';
import { isParquet } from '../readers/formats/parquet.ts';
import { isUniversal } from '../readers/formats/universal.ts';
import { isWav } from '../readers/formats/wav.ts';
import { limits } from '../readers/limits.ts';
import { refuse } from '../readers/messages.ts';
import { readChecked } from '../readers/readChecked.ts';
import type { ByteSource, ReadWatch } from '../readers/recording.ts';
import { withSamplesOf } from '../readers/takenChannels.ts';
import { isSystemRefusal } from '../result/environment.ts';
import { success } from '../result/result.ts';
import type { ReadRecording, WantedRecording } from '../values/ports.ts';
import { hashFile, heldTo, openFile } from './bytes.ts';
import { stampOf } from './identities.ts';
import { whileOthersWork, type OpenedFile, type Opening } from './openedFile.ts';
import './systemBrotli.ts';

/** One recording to be read; plain data, so that any thread can be asked for it. */
export interface ReadingTask extends WantedRecording {
  readonly absolute: string;
}

/** A recording as it was read, and the stamp of its file if that did not change meanwhile. */
export interface Reading extends ReadRecording {
  readonly stamp: string | undefined;
}

/**
 * Reads a recording from a file in one go: the bytes that are hashed are those that are parsed, of a file that rests meanwhile.
 * @param open how files are opened in this thread
 */
export async function readRecording(
  task: ReadingTask,
  watch: ReadWatch,
  open: Opening = whileOthersWork,
): Promise<Reading> {
  const file = await opened(open, task.absolute);
  // Why it can't be opened is told by who reads from it.
  if (file === undefined) return unread(task, await openFile(task.absolute, task.path), watch);
  try {
    const before = await file.stat();
    const read = await readFrom(file, Number(before.size), task, watch);
    const after = await file.stat();
    if (stampOf(before) === stampOf(after)) return { ...read, stamp: read.identity && stampOf(before) };
    if (watch.cancelled() || isToldAlready(read) || (await isStillThere(task, read, before, after)))
      return { ...read, stamp: undefined };
    // Whatever became of what was read.
    return { recording: changed(task), identity: read.identity, stamp: undefined };
  } finally {
    await file.close();
  }
}

async function opened(open: Opening, absolute: string): Promise<OpenedFile | undefined> {
  try {
    return await open(absolute);
  } catch (error) {
    if (!isSystemRefusal(error)) throw error;
    return undefined;
  }
}

const isToldAlready = ({ recording }: ReadRecording): boolean =>
  !recording.ok && recording.failure.code === 'file-changed';

/** Whether nothing but a file's rights or names changed while it was read, which its size and time tell or else its bytes. */
async function isStillThere(
  { absolute }: ReadingTask,
  { identity }: ReadRecording,
  before: BigIntStats,
  after: BigIntStats,
): Promise<boolean> {
  if (before.size !== after.size || before.mtimeNs !== after.mtimeNs || identity === undefined) return false;
  const now = await hashFile(absolute).catch(() => undefined);
  return now?.sha256 === identity.sha256;
}

/** The refusal of a file that has other bytes than it was known by, or was written while it was read. */
const changed = ({ path }: ReadingTask): ReadRecording['recording'] => refuse('file-changed', { path });

async function unread(task: ReadingTask, source: ByteSource, watch: ReadWatch): Promise<Reading> {
  return { recording: await readChecked(source, task.options, watch), identity: undefined, stamp: undefined };
}

async function readFrom(file: OpenedFile, size: number, task: ReadingTask, watch: ReadWatch): Promise<ReadRecording> {
  const { path, options, channels, identity: expected } = task;
  const mark = new Uint8Array(16);
  await file.read(mark, mark.length, 0);
  // What is read from its end cannot be hashed on the way.
  if (isParquet(mark)) return readHeld(task, watch);
  const bytes = new HashedBytes(file, size);
  const source = { path, size, read: bytes.read, fault: () => bytes.fault };
  const reading = readChecked(source, options, watch);
  // While its first bytes come.
  if (size < limits.parts.from && isOfLines(mark)) watch.expectBeside?.();
  const recording = await reading;
  const identity = bytes.fault || watch.cancelled() ? undefined : await bytes.identity();
  bytes.done();
  if (expected !== undefined && identity !== undefined && expected.sha256 !== identity.sha256) {
    return { recording: changed(task), identity };
  }
  return {
    recording: recording.ok ? success(withSamplesOf(recording.value, channels, options.tacho)) : recording,
    identity,
  };
}

/** Whether a file begins as a text does of which another thread may read rows. */
const isOfLines = (mark: Uint8Array): boolean =>
  !isWav(mark) && !isUniversal(mark) && mark.every((byte) => byte >= 32 || (byte >= 9 && byte <= 13));

/** Reads a file that is read out of order: hashed first, and then held to its hash. */
async function readHeld(
  { absolute, path, options, channels, ...task }: ReadingTask,
  watch: ReadWatch,
): Promise<ReadRecording> {
  const hashed = await hashFile(absolute);
  const isOther = task.identity !== undefined && task.identity.sha256 !== hashed.sha256;
  const source = heldTo(await openFile(absolute, path), isOther ? undefined : hashed, hashed.bytes, () => undefined);
  const recording = await readChecked(source, options, watch);
  return {
    recording: recording.ok ? success(withSamplesOf(recording.value, channels, options.tacho)) : recording,
    identity: { bytes: hashed.bytes, sha256: hashed.sha256 },
  };
}

/** A buffer that nobody reads into, if there is one: memory that was written to before is far quicker than fresh memory. */
let spare: Uint8Array | undefined;

/** A file's bytes, read once from front to end and hashed as they come. */
class HashedBytes {
  readonly #file: OpenedFile;
  readonly #size: number;
  readonly #hash: Hash = createHash('sha256');
  #buffer = spare ?? new Uint8Array(0);
  #hashed = 0;
  fault: ReturnType<NonNullable<ByteSource['fault']>>;

  constructor(file: OpenedFile, size: number) {
    this.#file = file;
    this.#size = size;
    spare = undefined;
  }

  readonly read = async (at: number, length: number, into?: Uint8Array): Promise<Uint8Array> => {
    if (into === undefined && this.#buffer.length < length) this.#buffer = new Uint8Array(length);
    const place = into ?? this.#buffer;
    const bytes = place.subarray(0, await this.#bytesAt(place, at, length));
    if (at !== this.#hashed) throw new Error('a recording was read out of order');
    this.#hash.update(bytes);
    this.#hashed += bytes.length;
    return bytes;
  };

  async #bytesAt(place: Uint8Array, at: number, length: number): Promise<number> {
    try {
      return await this.#file.read(place, length, at);
    } catch (error) {
      if (!isSystemRefusal(error)) throw error;
      this.fault = { kind: 'refused', system: error.code };
      return 0;
    }
  }

  /** Of all bytes, those included that nobody asked for. */
  async identity(): Promise<{ bytes: number; sha256: string } | undefined> {
    while (this.#hashed < this.#size) {
      const bytes = await this.read(this.#hashed, Math.min(1 << 21, this.#size - this.#hashed));
      if (bytes.length === 0) break;
    }
    return this.fault ? undefined : { bytes: this.#hashed, sha256: this.#hash.digest('hex') };
  }

  done(): void {
    spare = this.#buffer;
  }
}
