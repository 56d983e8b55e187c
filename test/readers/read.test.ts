import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { limits } from '../../src/readers/limits.ts';
import { read, unwatched } from '../../src/readers/read.ts';
import type { ByteSource } from '../../src/readers/recording.ts';
import { refusalOf, source } from './memory.ts';

const folder = fileURLToPath(new URL('fixtures/', import.meta.url));

describe('reading a file', () => {
  it('reads the same whatever the pieces that a file comes in', async () => {
    const ragged = (bytes: Uint8Array, most: number): ByteSource => ({
      ...source(bytes),
      read: (at, length) => Promise.resolve(bytes.slice(at, at + Math.max(1, Math.min(length, most)))),
    });
    for (const name of readdirSync(folder).filter((one) => /^\d/.test(one))) {
      const bytes = new Uint8Array(readFileSync(join(folder, name))).slice(0, 1800);
      const whole = await read(source(bytes), { rate: 100 });
      for (const most of [1, 7, 1000]) assert.deepEqual(await read(ragged(bytes, most), { rate: 100 }), whole);
    }
  });

  it('asks for each byte once, from front to end, also where the layout has to be found in parts', async () => {
    const names = readdirSync(folder).filter((one) => /^\d/.test(one) && !one.endsWith('.parquet'));
    for (const name of names)
      for (const from of [1, Infinity]) {
        const bytes = new Uint8Array(readFileSync(join(folder, name)));
        const asked: [number, number][] = [];
        const { read: give, ...rest } = source(bytes, name);
        const counted: ByteSource = {
          ...rest,
          sizes: { from, part: 4000, most: 1e6 },
          read: async (at, length) => {
            const piece = await give(at, Math.min(length, 1000));
            asked.push([at, piece.length]);
            return piece;
          },
        };
        await read(counted, { rate: 100 });
        let end = 0;
        for (const [at, length] of asked) {
          assert.equal(at, end, `${name} is read again at byte ${at}`);
          end += length;
        }
        assert.ok(end > 0, name);
      }
  });

  it('refuses a gzip bomb long before it fills the memory', async function () {
    this.timeout(60_000);
    const bomb = new Uint8Array(
      gzipSync(Buffer.from('0.1,0.2,0.3,1.0\n'.repeat((limits.expandedFree + (16 << 20)) / 16))),
    );
    assert.ok(bomb.length < 1 << 20);
    assert.match(
      (await refusalOf(bomb, { rate: 400 })).message,
      /grows to more than \d+(\.\d+)? MiB, \d+(\.\d+)? times its size.*unpack it/,
    );
  });

  it('refuses rows that are packed too densely by the time the stated limit is passed, however much of the file follows', async function () {
    this.timeout(60_000);
    const member = gzipSync(Buffer.from('0.1,0.2,0.3,1.0\n'.repeat(1 << 16)));
    const { facts } = await refusalOf(new Uint8Array(Buffer.concat(Array<Buffer>(400).fill(member))), { rate: 400 });
    const { expanded } = facts as { expanded: number };
    assert.ok(
      expanded > limits.expandedFree && expanded < 1.25 * limits.expandedFree,
      `${expanded} bytes were unpacked`,
    );
  });

  it('refuses a line without end, and more columns than any logger has, by stated limits', async function () {
    this.timeout(60_000);
    assert.match((await refusalOf('0,'.repeat(4 << 20))).message, /256 KiB/);
    const late = 't,x,y,z\n' + '0.1,0.1,0.2,1\n'.repeat(100) + '0,'.repeat(2 << 20);
    assert.match((await refusalOf(late, { rate: 100 })).message, /longer than 1024 KiB/);
    const wide = `${Array.from({ length: 5000 }, (_, i) => i % 10).join(',')}\n`;
    assert.match((await refusalOf(wide.repeat(20), { rate: 100 })).message, /more than 4096 columns/);
    // A file that goes on for ever with one row of a billion columns: only its beginning is read.
    let asked = 0;
    const endless: ByteSource = {
      path: 'run.csv',
      size: 2_000_000_000,
      read: (_, length) => Promise.resolve(new Uint8Array((asked += length) - asked + length).fill(49)),
    };
    const result = await read(endless, {});
    assert.ok(!result.ok);
    assert.ok(asked < 32 << 20, `${asked} bytes were read`);
  });

  it('stops when it is told to, and reports how far it is', async () => {
    const text =
      't,x,y,z\n' + Array.from({ length: 200_000 }, (_, i) => `${(i / 400).toFixed(4)},${i % 7},${i % 5},1\n`).join('');
    const told: number[] = [];
    const result = await read(
      source(text),
      {},
      { cancelled: () => told.length > 0, progress: (fraction) => told.push(fraction) },
    );
    assert.ok(!result.ok && result.failure.code === 'cancelled');
    assert.ok(told[0] > 0 && told[0] < 1);
    told.length = 0;
    assert.ok((await read(source(text), {}, { ...unwatched, progress: (fraction) => told.push(fraction) })).ok);
    assert.ok(told.at(-1) === 1 && told.every((fraction, i) => i === 0 || fraction >= told[i - 1]));
  });
});
