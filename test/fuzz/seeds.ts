import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { validCells } from '../language/valid.ts';
import { madeUpFile, madeUpNotebook } from './madeUp.ts';
import { randomOf } from './mutate.ts';

export type Kind = 'recording' | 'clock' | 'packed' | 'notebook' | 'cell';

const root = fileURLToPath(new URL('../../', import.meta.url));
const fixtures = join(root, 'test/readers/fixtures');

/** The first lines of text are as good as all of them, and thousands can be tried; a footer at the end has to stay. */
const shortened = (name: string, bytes: Uint8Array): Uint8Array =>
  name.endsWith('parquet') ? bytes : bytes.slice(0, name.endsWith('wav') ? 1500 : 1800);

const recordings = readdirSync(fixtures)
  .filter((name) => /^\d.*(?<!gz)$/.test(name))
  .map((name) => ({ name, bytes: new Uint8Array(readFileSync(join(fixtures, name))) }));

const notebooks = [
  readFileSync(join(root, 'samples/seat-pad.washboard.md'), 'utf8').slice(0, 4000),
  readFileSync(join(root, 'samples/springs.washboard.md'), 'utf8'),
  '---\ntitle: a\n---\n\n# A\r\n\r\n~~~washboard\r\nx = 1 m\r\n~~~\r\n\n> ```washboard\n> 1\n> ```\n\n- a\n\n  ```washboard\n  2\n  ```\n',
];

/** What stands in the project is mutated with every seed: each format of a file, notebooks and cells. */
const fixed: Readonly<Record<'recording' | 'notebook' | 'cell', readonly Uint8Array[]>> = {
  recording: [
    ...recordings.map(({ name, bytes }) => shortened(name, bytes)),
    new Uint8Array(gzipSync(recordings[0].bytes.subarray(0, 1500))),
  ],
  notebook: notebooks.map((text) => new TextEncoder().encode(text)),
  cell: validCells.map((text) => new TextEncoder().encode(text)),
};

/** Text by its first bytes, in any encoding: what a row's stamp can be changed in. */
const isText = (bytes: Uint8Array): boolean =>
  !/^(?:RIFF|RF64|PAR1|\x1f\x8b)/.test(Buffer.from(bytes.subarray(0, 4)).toString('latin1'));

/** What is mutated with one seed of the fuzzer: what stands in the project, and as much again made up for that seed. */
export function seedsOf(seed: number): Readonly<Record<Kind, readonly Uint8Array[]>> {
  const random = randomOf(Math.imul(seed, 0x85ebca6b));
  const files = Array.from({ length: fixed.recording.length }, () => madeUpFile(random));
  const longer = Array.from({ length: fixed.recording.length }, () => madeUpFile(random, 40 + 700 * random() ** 2));
  const texts = Array.from({ length: 6 }, () => madeUpNotebook(random));
  const recording = [...fixed.recording, ...files];
  const cells = texts.map((text) => text.split('\n').slice(3, 7).join('\n'));
  const bytesOf = (list: readonly string[]): Uint8Array[] => list.map((text) => new TextEncoder().encode(text));
  return {
    recording,
    clock: [...recording.filter(isText), ...longer],
    packed: recording,
    notebook: [...fixed.notebook, ...bytesOf(texts)],
    cell: [...fixed.cell, ...bytesOf(cells)],
  };
}
