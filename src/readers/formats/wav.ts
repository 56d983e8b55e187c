import { success, type Refused, type Result } from '../../result/result.ts';
import type { Reading } from '../assemble.ts';
import { limits } from '../limits.ts';
import { finding, refuse } from '../messages.ts';
import type { SpeltFormat } from '../messages/file.ts';
import type { OpenFile, Pieces } from '../pieces.ts';
import type { Finding, ReadWatch } from '../recording.ts';
import type { Table, TableColumn } from '../table.ts';
import { Feed } from './feed.ts';

/** What the `fmt ` chunk says of the samples. */
interface WavFormat {
  readonly float: boolean;
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
  /** Bytes of one sample of every channel. */
  readonly frame: number;
}

const ascii = (bytes: Uint8Array, from: number): string => String.fromCharCode(...bytes.subarray(from, from + 4));

/** Whether bytes begin a RIFF, RIFX or RF64 file of the form WAVE. */
export function isWav(head: Uint8Array): boolean {
  return head.length >= 12 && /^(RIFF|RIFX|RF64)$/.test(ascii(head, 0)) && ascii(head, 8) === 'WAVE';
}

/** A WAV file whose format is known, and none of whose samples have been read. */
export interface OpenWav {
  readonly path: string;
  readonly format: WavFormat;
  readonly little: boolean;
  /** Bytes of one sample of every channel. */
  readonly frame: number;
  /** Where its samples begin and end, in bytes. */
  readonly from: number;
  readonly to: number;
  /** Bytes of samples that its data chunk states. */
  readonly stated: number;
}

/**
 * Reads a WAV file (IBM and Microsoft 1991, Multimedia Programming Interface; RF64: EBU Tech 3306): whole numbers as
 * counts (8 bits less 128), floating-point samples as they stand; `scale` turns counts into a unit. Refuses other
 * formats of samples, and a file that ends before them.
 */
export async function readWav(file: OpenFile, watch: ReadWatch): Promise<Result<Reading>> {
  const pieces = file.from(0);
  const feed = new Feed(pieces);
  const found = await headOf(file, feed);
  return found.ok ? samples(file, pieces, feed, found.value, watch) : found;
}

/** Finds where the samples of a WAV file stand; refuses it as `readWav` does. @param file nothing of which is read on */
export async function openWav({ path, head, size }: OpenFile): Promise<Result<OpenWav>> {
  const first: Pieces = {
    ...noPieces,
    next: () => Promise.resolve(taken++ === 0 ? head : undefined),
  };
  let taken = 0;
  const found = await headOf({ path }, new Feed(first));
  if (!found.ok) return found;
  const { format, little, stated, at } = found.value;
  const to = isOpen(stated) ? size : Math.min(size, at + stated);
  return success({ path, format, little, frame: format.frame, from: at, to, stated });
}

const noPieces: Omit<Pieces, 'next'> = {
  failure: () => undefined,
  progress: () => 0,
  close: () => Promise.resolve(),
};

/** Reads whole frames from the middle of a WAV file. */
export const readFrames = (
  { path, format, little, from }: OpenWav,
  { pieces, bytes }: { readonly pieces: Pieces; readonly bytes: number },
  watch: ReadWatch,
): Promise<Result<Reading>> =>
  samples({ path, size: bytes }, pieces, new Feed(pieces), { format, little, stated: 0, at: from }, watch, none);

/** Nothing is told of a part's end. */
const none = (): Promise<Finding[]> => Promise.resolve([]);

/** What is to be told of the end of a WAV file, once all of its frames were read. @param pieces what comes behind them */
export function findingsAtEnd({ format, little, stated, from, to }: OpenWav, pieces: Pieces): Promise<Finding[]> {
  const frames = Math.floor((to - from) / format.frame);
  return atEnd(new Feed(pieces), { format, little, stated, at: from }, { frames, taken: to - from });
}

/** A recorder that was switched off leaves nothing or the largest number as length. */
const isOpen = (stated: number): boolean => stated === 0 || stated === 0xffffffff;

/** Whether a chunk of samples that states no length has none, as another chunk follows at once. */
const isEmpty = async (stated: number, feed: Feed): Promise<boolean> =>
  stated === 0 && /^(?:data|fact|cue |smpl|LIST|JUNK|junk|bext|id3 |ID3 )$/.test(ascii(await feed.peek(4), 0));

/** Reads as far as the samples. */
async function headOf({ path }: Pick<OpenFile, 'path'>, feed: Feed): Promise<Result<DataChunk>> {
  const top = await feed.take(12);
  const little = ascii(top, 0) !== 'RIFX';
  let format: WavFormat | undefined;
  let long: number | undefined;
  let at = 12;
  for (;;) {
    const header = await feed.take(8);
    if (header.length < 8) return refuse('damaged-wav', { path, lacks: 'samples' });
    at += 8;
    const view = new DataView(header.buffer);
    const length = view.getUint32(4, little);
    const name = ascii(header, 0);
    if (name === 'data' && !(await isEmpty(length, feed))) {
      if (!format) return refuse('damaged-wav', { path, lacks: 'format' });
      return success({ format, little, stated: long ?? length, at });
    }
    const padded = length + (length % 2);
    if (name === 'fmt ') {
      const body = await feed.take(Math.min(length, 64));
      await feed.pass(padded - body.length);
      const found = formatOf(path, body, little);
      if (!found.ok) return found;
      if (format !== undefined && !isSame(format, found.value))
        return refuse('wav-formats-differ', { path, first: spelt(format), second: spelt(found.value) });
      format = found.value;
      at += padded;
    } else if (name === 'ds64') {
      const body = await feed.take(Math.min(length, 16));
      await feed.pass(length - body.length);
      if (body.length === 16) long = Number(new DataView(body.buffer).getBigUint64(8, true));
      at += length;
    } else if (name === 'LIST' && ascii(await feed.peek(4), 0) === 'wavl') {
      return refuse('wav-list', { path });
    } else {
      await feed.pass(padded);
      at += padded;
    }
  }
}

function formatOf(path: string, body: Uint8Array, little: boolean): Result<WavFormat> {
  if (body.length < 16) return refuse('damaged-wav', { path, lacks: 'end of the format' });
  const view = new DataView(body.buffer, body.byteOffset, body.length);
  const tag = view.getUint16(0, little);
  const code = tag === 0xfffe && body.length >= 26 ? view.getUint16(24, little) : tag;
  const channels = view.getUint16(2, little);
  const rate = view.getUint32(4, little);
  const bits = view.getUint16(14, little);
  const known = code === 1 ? [8, 16, 24, 32] : code === 3 ? [32, 64] : [];
  if (!known.includes(bits)) return refuse('wav-format', { path, format: code, bits });
  if (channels === 0 || channels > limits.columns || rate === 0) return refuse('wav-format', { path, channels, rate });
  const [frame, stated] = [(channels * bits) / 8, view.getUint16(12, little)];
  // Samples in wider containers, or a damaged head: read on, it would be noise.
  if (stated !== 0 && stated !== frame) return refuse('wav-format', { path, channels, bits, frame: stated });
  return success({ float: code === 3, channels, rate, bits, frame });
}

const isSame = (one: WavFormat, other: WavFormat): boolean =>
  one.float === other.float && one.channels === other.channels && one.rate === other.rate && one.bits === other.bits;

const spelt = ({ float, channels, rate, bits }: WavFormat): SpeltFormat => ({ float, channels, rate, bits });

/** What the chunks before the samples say of them. */
interface DataChunk {
  readonly format: WavFormat;
  readonly little: boolean;
  /** Bytes that the chunk states. */
  readonly stated: number;
  /** Where its samples begin, in bytes. */
  readonly at: number;
}

async function samples(
  { path, size }: Pick<OpenFile, 'path' | 'size'>,
  pieces: Pieces,
  feed: Feed,
  chunk: DataChunk,
  watch: ReadWatch,
  endOf = atEnd,
): Promise<Result<Reading>> {
  const { format, little } = chunk;
  const { channels, frame } = format;
  const wanted = framesIn(chunk) ?? Infinity;
  const room = Math.min(wanted, Math.ceil(size / frame) + 1);
  const tooMany = (): Refused => refuse('too-many-samples', { path, what: 'samples' });
  if (room * channels > limits.samples) return tooMany();
  let columns = Array.from({ length: channels }, () => new Float64Array(room));
  let rows = 0;
  const step = Math.max(1, Math.floor(65_536 / frame));
  const held = new Uint8Array(step * frame);
  while (rows < wanted) {
    if (watch.cancelled()) return refuse('cancelled', { path });
    const bytes = await feed.take(Math.min(step, wanted - rows) * frame, held);
    const frames = Math.floor(bytes.length / frame);
    if (frames === 0) break;
    if (rows + frames > columns[0].length) {
      const length = 2 * (rows + frames);
      if (length * channels > 2 * limits.samples) return tooMany();
      columns = columns.map((column) => grown(column, length));
    }
    const numbers = numbersIn(bytes, format, little);
    columns.forEach((column, k) => deal(numbers, k, channels, column.subarray(rows, rows + frames)));
    rows += frames;
    watch.progress(pieces.progress());
  }
  return success(
    asReading(path, format, columns, rows, await endOf(feed, chunk, { frames: rows, taken: rows * frame })),
  );
}

/** Whole frames that a chunk states; undefined where it states no length. */
const framesIn = ({ format, stated }: DataChunk): number | undefined =>
  isOpen(stated) ? undefined : Math.floor(stated / format.frame);

/** That there are fewer frames than are stated, or what comes behind them. Of so many frames, and so many bytes of the chunk that were taken. */
async function atEnd(
  feed: Feed,
  chunk: DataChunk,
  { frames, taken }: { readonly frames: number; readonly taken: number },
): Promise<Finding[]> {
  const { format, little, stated } = chunk;
  const wanted = framesIn(chunk);
  if (wanted === undefined || frames < wanted)
    return [finding('cut-short', 'note', { samples: frames, stated: wanted })];
  return laterSamples(feed, little, { pad: stated - taken + (stated % 2), frame: format.frame });
}

/** What tells of samples that stand in later chunks, or in a file that was hung on: they may be of another time, and are not read. */
async function laterSamples(
  feed: Feed,
  little: boolean,
  { pad, frame }: { readonly pad: number; readonly frame: number },
): Promise<Finding[]> {
  await feed.pass(pad);
  let [chunks, bytes] = [0, 0];
  for (;;) {
    const header = await feed.take(8);
    const name = header.length < 8 ? '' : ascii(header, 0);
    // What is no chunk any more is read no further.
    if (!/^[\x20-\x7e]{4}$/.test(name)) break;
    const length = new DataView(header.buffer).getUint32(4, little);
    if (name === 'data') {
      const there = await feed.pass(length);
      [chunks, bytes] = [chunks + 1, bytes + there];
      await feed.pass(length % 2);
    } else await feed.pass(isWhole(name) ? 4 : length + (length % 2));
  }
  return bytes < frame ? [] : [finding('samples-after', 'warning', { chunks, samples: Math.floor(bytes / frame) })];
}

/** Whether a chunk is a whole file, whose kind and chunks follow. */
const isWhole = (name: string): boolean => name === 'RIFF' || name === 'RIFX';

/** Puts the numbers of one channel of several into its column. A sample that is no number becomes an empty cell, which the recording then counts as lost. */
function deal(numbers: Numbers, first: number, channels: number, column: Float64Array): void {
  for (let i = 0, at = first; i < column.length; i++, at += channels) {
    const value = numbers[at];
    column[i] = value - value === 0 ? value : NaN;
  }
}

function asReading(
  path: string,
  { rate, float, bits }: WavFormat,
  samples: readonly Float64Array[],
  rows: number,
  findings: readonly Finding[],
): Reading {
  const columns = samples.map((values): TableColumn => ({
    kind: 'number',
    header: undefined,
    values: values.subarray(0, rows),
    decimals: float ? 9 : 0,
  }));
  const table: Table = { columns, rows, named: false, isOfSignals: true, lineOf: () => undefined };
  const layout = { format: `WAV, ${bits} bits ${float ? 'floating point' : 'whole numbers'}`, rows };
  const stated = { rate, from: 'file header', name: 'the file header' } as const;
  return { table, origin: { path, layout, findings, stated } };
}

function grown(values: Float64Array, length: number): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(length);
  larger.set(values);
  return larger;
}

/** Whether the machine keeps the lowest byte first, as nearly all do. */
const isMachineLittle = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

/** All numbers in bytes that begin a buffer, as they take turns; what is infinite or no number may be among them. */
function numbersIn(bytes: Uint8Array, { float, bits }: WavFormat, little: boolean): Numbers {
  const count = Math.floor((8 * bytes.length) / bits);
  if (bits === 8) return Int16Array.from(bytes, (byte) => byte - 128);
  if (bits === 24) return wholeOf24(bytes, count, little);
  const ordered = little === isMachineLittle ? bytes : swapped(bytes, bits / 8);
  const { buffer } = ordered;
  if (bits === 16) return new Int16Array(buffer, 0, count);
  if (!float) return new Int32Array(buffer, 0, count);
  return bits === 64 ? new Float64Array(buffer, 0, count) : new Float32Array(buffer, 0, count);
}

type Numbers = Int16Array | Int32Array | Float32Array | Float64Array;

function wholeOf24(bytes: Uint8Array, count: number, little: boolean): Int32Array {
  const numbers = new Int32Array(count);
  const [low, high] = little ? [0, 2] : [2, 0];
  for (let i = 0; i < count; i++)
    numbers[i] = ((bytes[3 * i + high] << 24) >> 8) | (bytes[3 * i + 1] << 8) | bytes[3 * i + low];
  return numbers;
}

/** A copy in which the bytes of each number stand the other way round. */
function swapped(bytes: Uint8Array, width: number): Uint8Array {
  const turned = new Uint8Array(bytes.length);
  for (let at = 0; at + width <= bytes.length; at += width)
    for (let k = 0; k < width; k++) turned[at + k] = bytes[at + width - 1 - k];
  return turned;
}
