import { refused, success, type Result } from '../result/result.ts';
import { assemble } from './assemble.ts';
import { isParquet, readParquet } from './formats/parquet.ts';
import { isUniversal, readUniversal } from './formats/universal.ts';
import { isWav, readWav } from './formats/wav.ts';
import { piecesOf, rejoined, takeHead, unzipped, type Pieces } from './pieces.ts';
import type { ByteSource, ReadOptions, Recording, ReadWatch } from './recording.ts';
import { Refused } from './refusal.ts';
import { readText } from './text/text.ts';

/** A watch for short readings that nobody waits for. */
export const unwatched: ReadWatch = { cancelled: () => false, progress: () => undefined };

/**
 * Reads a recording from a file's bytes, in whatever format and layout they are (by content; the file's name plays no
 * part). Samples are in the unit that each channel states, or as they stand where nothing settles it. Gives a refusal,
 * never an exception, where the file can't be read in one way only.
 */
export async function read(
  source: ByteSource,
  options: ReadOptions = {},
  watch: ReadWatch = unwatched,
): Promise<Result<Recording>> {
  try {
    return success(await readAny(source, options, watch));
  } catch (error) {
    if (error instanceof Refused) return refused(error.failure);
    if (error instanceof RangeError && /allocation|array length/i.test(error.message)) {
      const message = `${source.path}: there is not enough memory for all of this file's numbers: cut it into parts.`;
      return refused({ code: 'memory', facts: { path: source.path }, message });
    }
    throw error;
  }
}

async function readAny(source: ByteSource, options: ReadOptions, watch: ReadWatch): Promise<Recording> {
  if (source.size === 0) throw new Refused('empty', `${source.path}: the file is empty.`);
  const pieces = piecesOf(source);
  const { bytes: head } = await takeHead(pieces, 1024);
  if (isParquet(head)) {
    const { origin, table } = await readParquet(source, watch);
    return assemble(origin, table, options);
  }
  if (isGzip(head)) return readPacked(source, rejoined(head, pieces), options, watch);
  refuseForeign(source.path, head);
  return readStream(source, head, rejoined(head, pieces), options, watch);
}

async function readPacked(
  source: ByteSource,
  packed: Pieces,
  options: ReadOptions,
  watch: ReadWatch,
): Promise<Recording> {
  const open = unzipped(source.path, packed);
  try {
    const { bytes: head } = await takeHead(open, 1024);
    if (isGzip(head) || isParquet(head)) {
      throw new Refused(
        'packed-twice',
        `${source.path}: the compressed file holds another packed file: unpack it first.`,
      );
    }
    refuseForeign(source.path, head);
    const recording = await readStream(source, head, rejoined(head, open), options, watch, usualPacking);
    return { ...recording, layout: { ...recording.layout, format: `${recording.layout.format}, gzip` } };
  } finally {
    await open.close();
  }
}

/** Texts of numbers pack to about a third or a quarter. */
const usualPacking = 5;

const isGzip = (head: Uint8Array): boolean => head[0] === 0x1f && head[1] === 0x8b;

/** Formats that people bring and that can't be read here, by their first bytes. */
const foreign: readonly (readonly [string, string, string])[] = [
  ['PK\u0003\u0004', 'a zip archive or a workbook', 'unpack it, or save the sheet as CSV'],
  ['%PDF', 'a PDF', 'export the recording as CSV'],
  ['\u0089HDF', 'an HDF5 file', 'export the recording as CSV'],
  ['MATLAB', 'a MATLAB file', 'export the recording as CSV'],
  ['TDSm', 'a TDMS file', 'export the recording as CSV'],
  ['MDF ', 'an MDF file', 'export the recording as CSV'],
  ['\u00d0\u00cf\u0011\u00e0', 'an old workbook', 'save the sheet as CSV'],
  ['BZh', 'packed with bzip2', 'unpack it'],
  ['\u00fd7zXZ', 'packed with xz', 'unpack it'],
  ['(\u00b5/\u00fd', 'packed with zstd', 'unpack it'],
];

function refuseForeign(path: string, head: Uint8Array): void {
  const start = String.fromCharCode(...head.subarray(0, 8));
  const found = foreign.find(([mark]) => start.startsWith(mark));
  if (found) throw new Refused('foreign-format', `${path}: this is ${found[1]}, which can't be read: ${found[2]}.`);
}

async function readStream(
  source: ByteSource,
  head: Uint8Array,
  pieces: Pieces,
  options: ReadOptions,
  watch: ReadWatch,
  packing = 1,
): Promise<Recording> {
  const { path, size } = source;
  if (isWav(head) || isUniversal(head)) {
    const { origin, table } = await (isWav(head) ? readWav : readUniversal)(path, pieces, size, watch);
    return assemble(origin, table, options);
  }
  const { table, preamble, layout, findings } = await readText(path, pieces, size, options, watch, packing);
  const { rate, rateKey, unit, dropped, calibration } = preamble;
  const stated =
    rate === undefined ? undefined : { rate, from: 'preamble' as const, name: `"${rateKey}" in the preamble` };
  return assemble({ path, layout, findings, stated, unit, dropped, calibration }, table, options);
}
