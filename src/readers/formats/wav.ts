import type { Origin } from '../assemble.ts';
import { limits } from '../limits.ts';
import type { Pieces } from '../pieces.ts';
import type { Finding, ReadWatch } from '../recording.ts';
import { Refused } from '../refusal.ts';
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

/**
 * Reads a WAV file (IBM and Microsoft 1991, Multimedia Programming Interface; RF64: EBU Tech 3306): whole numbers as
 * counts (8 bits less 128), floating-point samples as they stand; `scale` turns counts into a unit.
 */
export async function readWav(
  path: string,
  pieces: Pieces,
  size: number,
  watch: ReadWatch,
): Promise<{ readonly origin: Origin; readonly table: Table }> {
  const feed = new Feed(pieces);
  const top = await feed.take(12);
  const little = ascii(top, 0) !== 'RIFX';
  let format: WavFormat | undefined;
  let long: number | undefined;
  for (;;) {
    const header = await feed.take(8);
    if (header.length < 8)
      throw new Refused(
        'damaged-wav',
        `${path}: the WAV file ends before its samples: copy it again from the recorder.`,
      );
    const view = new DataView(header.buffer);
    const length = view.getUint32(4, little);
    const name = ascii(header, 0);
    if (name === 'data') {
      if (!format)
        throw new Refused(
          'damaged-wav',
          `${path}: the WAV file has samples but no format before them, so they can't be read.`,
        );
      return samples(path, feed, format, little, long ?? length, pieces, size, watch);
    }
    if (name === 'fmt ') {
      const body = await feed.take(Math.min(length, 64));
      await feed.pass(length - body.length + (length % 2));
      format = formatOf(path, body, little);
    } else if (name === 'ds64') {
      const body = await feed.take(length);
      if (body.length >= 16) long = Number(new DataView(body.buffer).getBigUint64(8, true));
    } else await feed.pass(length + (length % 2));
  }
}

function formatOf(path: string, body: Uint8Array, little: boolean): WavFormat {
  if (body.length < 16) throw new Refused('damaged-wav', `${path}: the format chunk of the WAV file is cut short.`);
  const view = new DataView(body.buffer, body.byteOffset, body.length);
  const tag = view.getUint16(0, little);
  const code = tag === 0xfffe && body.length >= 26 ? view.getUint16(24, little) : tag;
  const channels = view.getUint16(2, little);
  const rate = view.getUint32(4, little);
  const bits = view.getUint16(14, little);
  const known = code === 1 ? [8, 16, 24, 32] : code === 3 ? [32, 64] : [];
  if (!known.includes(bits)) {
    throw new Refused(
      'wav-format',
      `${path}: this WAV file is in format ${code} with ${bits} bits; only whole numbers of 8, 16, 24 and 32 bits and floating point of 32 and 64 can be read: export it as one of those.`,
    );
  }
  if (channels === 0 || channels > limits.columns || rate === 0) {
    throw new Refused(
      'wav-format',
      `${path}: the WAV file states ${channels} channels at ${rate} Hz, which is no recording.`,
    );
  }
  return { float: code === 3, channels, rate, bits, frame: (channels * bits) / 8 };
}

async function samples(
  path: string,
  feed: Feed,
  format: WavFormat,
  little: boolean,
  stated: number,
  pieces: Pieces,
  size: number,
  watch: ReadWatch,
): Promise<{ origin: Origin; table: Table }> {
  const { channels, frame, rate, float, bits } = format;
  // A recorder that was switched off leaves nothing or the largest number as length.
  const open = stated === 0 || stated === 0xffffffff;
  const wanted = open ? Infinity : Math.floor(stated / frame);
  const room = Math.min(wanted, Math.ceil(size / frame) + 1);
  if (Math.min(wanted, room) * channels > limits.samples) {
    throw new Refused(
      'too-many-samples',
      `${path}: the file holds more than ${limits.samples / 1e6} million samples, the most that one recording may have: cut it into parts.`,
    );
  }
  let columns = Array.from({ length: channels }, () => new Float64Array(room));
  let rows = 0;
  const read = reader(format, little);
  const step = Math.max(1, Math.floor(65_536 / frame));
  while (rows < wanted) {
    if (watch.cancelled()) throw new Refused('cancelled', `${path}: reading was stopped.`);
    const bytes = await feed.take(Math.min(step, wanted - rows) * frame);
    const frames = Math.floor(bytes.length / frame);
    if (frames === 0) break;
    if (rows + frames > columns[0].length)
      columns = columns.map((column) => grown(path, column, 2 * (rows + frames), channels));
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    for (let i = 0; i < frames; i++)
      for (let k = 0; k < channels; k++) columns[k][rows + i] = read(view, i * frame + (k * bits) / 8);
    rows += frames;
    watch.progress(Math.min(1, pieces.taken() / size));
  }
  const findings: Finding[] = [];
  if (open || rows < wanted)
    findings.push({
      code: 'cut-short',
      severity: 'note',
      message: `The file ends ${open ? 'without stating its length' : `after ${rows} of ${wanted} samples`}, as where the recorder was switched off; what is there was read.`,
    });
  const parts = columns.map((values): TableColumn => ({
    kind: 'number',
    header: undefined,
    values: values.subarray(0, rows),
    decimals: float ? 9 : 0,
  }));
  const table: Table = { columns: parts, rows, named: false, lineOf: () => undefined };
  const stem = { format: `WAV, ${bits} bits ${float ? 'floating point' : 'whole numbers'}`, rows };
  return {
    table,
    origin: { path, layout: stem, findings, stated: { rate, from: 'file header', name: 'the file header' } },
  };
}

function grown(path: string, values: Float64Array, length: number, channels: number): Float64Array<ArrayBuffer> {
  if (length * channels > 2 * limits.samples)
    throw new Refused(
      'too-many-samples',
      `${path}: the file holds more than ${limits.samples / 1e6} million samples, the most that one recording may have: cut it into parts.`,
    );
  const larger = new Float64Array(length);
  larger.set(values);
  return larger;
}

function reader({ float, bits }: WavFormat, little: boolean): (view: DataView, at: number) => number {
  // A sample that is no number becomes an empty cell, which the recording then counts as lost.
  if (float)
    return bits === 64
      ? (view, at) => finite(view.getFloat64(at, little))
      : (view, at) => finite(view.getFloat32(at, little));
  if (bits === 8) return (view, at) => view.getUint8(at) - 128;
  if (bits === 16) return (view, at) => view.getInt16(at, little);
  if (bits === 32) return (view, at) => view.getInt32(at, little);
  return little
    ? (view, at) => (view.getInt8(at + 2) << 16) | (view.getUint8(at + 1) << 8) | view.getUint8(at)
    : (view, at) => (view.getInt8(at) << 16) | (view.getUint8(at + 1) << 8) | view.getUint8(at + 2);
}

const finite = (value: number): number => (Number.isFinite(value) ? value : NaN);
