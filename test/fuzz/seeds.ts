import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { validCells } from '../language/valid.ts';

export type Kind = 'recording' | 'packed' | 'notebook' | 'cell';

export interface Seed {
  readonly kind: Kind;
  readonly bytes: Uint8Array;
}

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

/** What is mutated: each format of a file, packed ones by what is in them, notebooks and cells. */
export const seeds: Readonly<Record<Kind, readonly Seed[]>> = {
  recording: [
    ...recordings.map(({ name, bytes }): Seed => ({ kind: 'recording', bytes: shortened(name, bytes) })),
    { kind: 'recording', bytes: new Uint8Array(gzipSync(recordings[0].bytes.subarray(0, 1500))) },
  ],
  packed: recordings.map(({ name, bytes }): Seed => ({ kind: 'packed', bytes: shortened(name, bytes) })),
  notebook: notebooks.map((text): Seed => ({ kind: 'notebook', bytes: new TextEncoder().encode(text) })),
  cell: validCells.map((text): Seed => ({ kind: 'cell', bytes: new TextEncoder().encode(text) })),
};
