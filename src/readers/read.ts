import { assemble } from './assemble.ts';
import { piecesOf, rejoined, takeHead, unzipped, type Pieces } from './pieces.ts';
import type { ByteSource, ReadOptions, Recording, ReadResult, ReadWatch } from './recording.ts';
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
): Promise<ReadResult> {
  try {
    return { ok: true, recording: await readAny(source, options, watch) };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, refusal: error.refusal };
    throw error;
  }
}

async function readAny(source: ByteSource, options: ReadOptions, watch: ReadWatch): Promise<Recording> {
  const pieces = piecesOf(source);
  const head = await takeHead(pieces, 1024);
  const whole = rejoined(head.bytes, pieces);
  if (source.size === 0) throw new Refused('empty', `${source.path}: the file is empty.`);
  if (head.bytes[0] === 0x1f && head.bytes[1] === 0x8b) return readZipped(source, whole, options, watch);
  return textRecording(source.path, whole, source.size, options, watch);
}

async function readZipped(
  source: ByteSource,
  whole: Pieces,
  options: ReadOptions,
  watch: ReadWatch,
): Promise<Recording> {
  const open = unzipped(source.path, whole);
  try {
    const recording = await textRecording(source.path, open, source.size, options, watch);
    return { ...recording, layout: { ...recording.layout, format: `${recording.layout.format}, gzip` } };
  } finally {
    await open.close();
  }
}

async function textRecording(
  path: string,
  pieces: Pieces,
  size: number,
  options: ReadOptions,
  watch: ReadWatch,
): Promise<Recording> {
  const { table, preamble, layout, findings } = await readText(path, pieces, size, options, watch);
  const stated =
    preamble.rate === undefined
      ? undefined
      : { rate: preamble.rate, from: 'preamble' as const, name: `"${preamble.rateKey}" in the preamble` };
  return assemble({ path, layout, findings, stated, unit: preamble.unit, dropped: preamble.dropped }, table, options);
}
