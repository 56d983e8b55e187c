import { strict as assert } from 'node:assert';
import { gzipSync } from 'node:zlib';
import { checkCells } from '../../src/engine/checkCells.ts';
import { parseNotebook } from '../../src/notebook/parse.ts';
import { serializeNotebook } from '../../src/notebook/serialize.ts';
import { unwatched } from '../../src/readers/read.ts';
import { readChecked } from '../../src/readers/readChecked.ts';
import type { Clock } from '../../src/readers/recording.ts';
import { source } from '../readers/memory.ts';
import type { Kind } from './seeds.ts';

/** What no sentence says, but where it repeats a file's own words. */
const holes = /\bNaN\b|\bundefined\b|\[object|\bInfinity\b/;

function holdSentence(message: string, words: readonly string[] = []): void {
  const own = words
    .filter((word) => word !== '')
    .sort((a, b) => b.length - a.length)
    .reduce((text, word) => text.replaceAll(word, ''), message)
    .replace(/"[^"]*"|`[^`]*`|“[^”]*”/g, '');
  assert.ok(!holes.test(own), message);
  assert.ok(!message.includes('\n'), message);
}

/** A clock runs forward over all samples, in stretches that follow one another. */
function holdClock({ rate, epoch, stretches, jitter, times }: Clock, rows: number): void {
  assert.ok(rate > 0 && Number.isFinite(rate), `a rate of ${rate}`);
  assert.ok(epoch === undefined || Number.isFinite(epoch), `an epoch of ${epoch}`);
  assert.ok(jitter >= 0 && Number.isFinite(jitter), `a jitter of ${jitter}`);
  let [row, end] = [0, 0];
  for (const { from, to, start } of stretches) {
    assert.ok(from === row && to > from, `a stretch from ${from} to ${to} behind row ${row}`);
    assert.ok(start >= end && Number.isFinite(start), `a stretch from ${start} s behind ${end} s`);
    [row, end] = [to, start + (0.5 * (to - from)) / rate];
  }
  assert.equal(row, rows, 'rows without a stretch');
  assert.ok(times?.every((t, i) => Number.isFinite(t) && (i === 0 || t >= times[i - 1])) ?? true, 'times run back');
}

async function judgeRecording(bytes: Uint8Array, rate: number | undefined): Promise<void> {
  const read = await readChecked(source(bytes), rate === undefined ? {} : { rate, unit: 'g' }, unwatched);
  if (!read.ok) return holdSentence(read.failure.message);
  const { channels, clock, findings } = read.value;
  for (const { samples, name } of channels)
    assert.ok(samples.every(Number.isFinite), `${name} holds what is no number`);
  holdClock(clock, channels[0].samples.length);
  const words = channels.flatMap(({ name, header = '' }) => [name, header]);
  for (const { message } of findings) holdSentence(message, words);
}

function judgeNotebook(bytes: Uint8Array): void {
  const read = parseNotebook(bytes);
  if (!read.ok) return holdSentence(read.failure.message);
  assert.ok(Buffer.from(serializeNotebook(read.value)).equals(bytes), 'a byte was lost');
  judgeCells(read.value.cells.filter(({ kind }) => kind === 'code').map(({ text }) => text));
}

function judgeCells(cells: readonly string[]): void {
  const own = cells.flatMap((text) =>
    holes.test(text) ? text.split(/[^\p{L}\p{N}\p{M}_]+/u).filter((word) => holes.test(word)) : [],
  );
  for (const { message, place } of checkCells(cells).problems.flat()) {
    assert.ok(place.from >= 0 && place.to >= place.from);
    holdSentence(message, own);
  }
}

/** Holds what is made of an input to all that must be so of any; throws where it is not. @param turn which of the ways to read it */
export async function judge(kind: Kind, bytes: Uint8Array, turn: number): Promise<void> {
  const rate = turn % 2 === 0 ? undefined : 400;
  if (kind === 'recording' || kind === 'clock') await judgeRecording(bytes, rate);
  else if (kind === 'packed') await judgeRecording(new Uint8Array(gzipSync(bytes, { level: 1 })), rate);
  else if (kind === 'notebook') judgeNotebook(bytes);
  else judgeCells([new TextDecoder().decode(bytes)]);
}
