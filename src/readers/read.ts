import { success, type Refused, type Result } from '../result/result.ts';
import { assemble, type Reading } from './assemble.ts';
import { isParquet, readParquet } from './formats/parquet.ts';
import { isUniversal, readUniversal } from './formats/universal.ts';
import { isWav, readWav } from './formats/wav.ts';
import { isGzip, unzipped } from './gzip.ts';
import { limits } from './limits.ts';
import { partFormat } from './long/partFormat.ts';
import { readLong } from './long/readLong.ts';
import { refuse } from './messages.ts';
import { openFile, piecesOf, refusedBy, type OpenFile } from './pieces.ts';
import type { ByteSource, ReadOptions, Recording, ReadWatch } from './recording.ts';
import { readText } from './text/text.ts';

/** A watch for short readings that nobody waits for. */
export const unwatched: ReadWatch = { cancelled: () => false, progress: () => undefined };

/**
 * Reads a recording from a file's bytes, in whatever format and layout they are (by content; the file's name plays no
 * part). Samples are in the unit that each channel states, or as they stand where nothing settles it. Refuses a file
 * that is damaged, too large, or can be read in more ways than one; the message names the option that settles it.
 */
export async function read(
  source: ByteSource,
  options: ReadOptions = {},
  watch: ReadWatch = unwatched,
): Promise<Result<Recording>> {
  try {
    return await readFile(source, options, watch);
  } catch (error) {
    if (error instanceof RangeError && /allocation|array length/i.test(error.message))
      return refuse('memory', { path: source.path });
    throw error;
  }
}

async function readFile(source: ByteSource, options: ReadOptions, watch: ReadWatch): Promise<Result<Recording>> {
  const { path, size, sizes = limits.parts } = source;
  const refused = refusedBy(source);
  if (refused) return refused;
  if (size === 0) return refuse('empty', { path });
  const file = await openFile(path, size, piecesOf(source));
  if (!file.ok) return file;
  const { head } = file.value;
  const whole = (reading: Result<Reading>): Result<Recording> =>
    reading.ok ? assemble(reading.value, options) : reading;
  if (isParquet(head)) return whole(await readParquet(source, watch));
  if (isGzip(head)) return whole(await readPacked(file.value, options, watch));
  const isOther = isUniversal(head) || foreignFormat(path, head) !== undefined;
  const format = isOther ? undefined : await partFormat(file.value, options, sizes);
  if (format !== undefined) return readLong(file.value, format, sizes, options, watch);
  return whole(await readStream(file.value, options, watch));
}

/** Texts of numbers pack to about a third or a quarter. */
const usualPacking = 5;

async function readPacked(packed: OpenFile, options: ReadOptions, watch: ReadWatch): Promise<Result<Reading>> {
  const { path, size } = packed;
  const pieces = unzipped(path, packed.from(0));
  try {
    const file = await openFile(path, usualPacking * size, pieces);
    if (!file.ok) return file;
    if (isGzip(file.value.head) || isParquet(file.value.head)) return refuse('packed-twice', { path });
    // Unpacking, which the host does beside, takes longer than the rows.
    const read = await readStream(file.value, options, { ...watch, beside: undefined });
    if (!read.ok) return read;
    const { origin, table } = read.value;
    const layout = { ...origin.layout, format: `${origin.layout.format}, gzip` };
    return success({ origin: { ...origin, layout }, table });
  } finally {
    await pieces.close();
  }
}

async function readStream(file: OpenFile, options: ReadOptions, watch: ReadWatch): Promise<Result<Reading>> {
  const { path, head } = file;
  const foreign = foreignFormat(path, head);
  if (foreign) return foreign;
  const read = isWav(head)
    ? await readWav(file, watch)
    : isUniversal(head)
      ? await readUniversal(file, watch)
      : await readText(file, options, watch);
  // What was made of bytes that ended too early is worth nothing.
  return file.failure() ?? read;
}

/** Formats that people bring and that can't be read here, by their first bytes. */
const foreignFormats: readonly (readonly [string, string, string])[] = [
  ['PK\u0003\u0004', 'a zip archive or a workbook', 'unpack it, or save the sheet as CSV'],
  ['%PDF', 'a PDF', 'export the recording as CSV'],
  ['\u0089HDF', 'an HDF5 file', 'export the recording as CSV'],
  ['PARE', 'an encrypted Parquet file', 'write it without encryption, or export the recording as CSV'],
  ['MATLAB', 'a MATLAB file', 'export the recording as CSV'],
  ['TDSm', 'a TDMS file', 'export the recording as CSV'],
  ['MDF ', 'an MDF file', 'export the recording as CSV'],
  ['\u00d0\u00cf\u0011\u00e0', 'an old workbook', 'save the sheet as CSV'],
  ['BZh', 'packed with bzip2', 'unpack it'],
  ['\u00fd7zXZ', 'packed with xz', 'unpack it'],
  ['(\u00b5/\u00fd', 'packed with zstd', 'unpack it'],
];

function foreignFormat(path: string, head: Uint8Array): Refused | undefined {
  const start = String.fromCharCode(...head.subarray(0, 8));
  const found = foreignFormats.find(([mark]) => start.startsWith(mark));
  return found && refuse('foreign-format', { path, format: found[1], remedy: found[2] });
}
