import { strict as assert } from 'node:assert';
import { existsSync, mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { clearKept, keptSize, tidyKept } from '../../src/disk/keptFolder.ts';

const [engine, other] = ['0123456789abcdef01234567', 'fedcba98765432100000abcd'];
const now = Date.UTC(2026, 4, 1);

describe('a folder of stores', () => {
  let kept: string;
  const has = (name: string): boolean => existsSync(join(kept, name));
  const put = (name: string, bytes: number, days: number): void => {
    const path = join(kept, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, 'x'.repeat(bytes));
    const used = (now - days * 86_400_000) / 1000;
    utimesSync(path, used, used);
  };
  beforeEach(() => {
    kept = mkdtempSync(join(tmpdir(), 'washboard-kept-'));
    put(`${engine}/ab/new`, 100, 1);
    put(`${engine}/ab/old`, 200, 30);
    put(`${other}/cd/new`, 400, 0);
    put(`${other}/cd/old`, 800, 40);
    put('notes.txt', 50, 400);
    put('notes/ab/old', 50, 400);
  });
  afterEach(() => rmSync(kept, { recursive: true }));

  const tidied = (limits: { bytes?: number; days?: number }) => tidyKept(kept, limits, { engine, now });

  it('holds what engines kept, and is cleared of that alone', async () => {
    assert.deepEqual(await keptSize(kept), { entries: 4, bytes: 1500 });
    await clearKept(kept);
    assert.deepEqual(await keptSize(kept), { entries: 0, bytes: 0 });
    assert.ok(has('notes.txt') && has('notes/ab/old'));
    assert.deepEqual(await keptSize(join(kept, 'none')), { entries: 0, bytes: 0 });
  });

  it('counts the entries of a pack by its name', async () => {
    put(`${engine}/packs/1777000000000-1200-01234567-89ab-cdef-0123-456789abcdef`, 10, 1);
    assert.deepEqual(await keptSize(kept), { entries: 1204, bytes: 1510 });
  });

  it('loses first what a clock set wrong dated far ahead, which would never be old', async () => {
    put(`${engine}/ab/ahead`, 300, -10_000);
    put(`${engine}/ab/slightly`, 300, -0.1);
    assert.deepEqual(await tidied({ days: 1000 }), { entries: 1, bytes: 300 });
    assert.deepEqual([has(`${engine}/ab/ahead`), has(`${engine}/ab/slightly`)], [false, true]);
  });

  it('loses what was not used for so many days, whoever kept it', async () => {
    assert.deepEqual(await tidied({ days: 30 }), { entries: 1, bytes: 800 });
    assert.deepEqual(await tidied({ days: 29 }), { entries: 1, bytes: 200 });
    assert.ok(has(`${engine}/ab/new`) && has(`${other}/cd/new`) && has('notes/ab/old'));
  });

  it('loses what is too much: first of other engines, then the oldest', async () => {
    assert.deepEqual(await tidied({ bytes: 1500 }), { entries: 0, bytes: 0 });
    assert.deepEqual(await tidied({ bytes: 700 }), { entries: 1, bytes: 800 });
    assert.deepEqual(await tidied({ bytes: 299 }), { entries: 2, bytes: 600 });
    assert.deepEqual([has(`${engine}/ab/new`), has(`${engine}/ab/old`)], [true, false]);
  });

  it('loses what is too old before it is found to be too much', async () => {
    assert.deepEqual(await tidied({ bytes: 700, days: 35 }), { entries: 1, bytes: 800 });
    assert.deepEqual(await keptSize(kept), { entries: 3, bytes: 700 });
  });
});
