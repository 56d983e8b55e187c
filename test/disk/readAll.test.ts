import { strict as assert } from 'node:assert';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Identities } from '../../src/disk/identities.ts';
import { readerIn } from '../../src/disk/readAll.ts';
import { recording } from '../engine/memoryFiles.ts';

describe('recordings that are read one after another', () => {
  let folder: string;
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'washboard-read-'));
    for (const seed of [1, 2, 3, 4]) writeFileSync(join(folder, `${seed}.csv`), recording({ seed, seconds: 10 }));
  });
  after(() => rmSync(folder, { recursive: true }));

  it('tell after each how many of all are done, and never fewer than before', async () => {
    const tasks = [1, 2, 3, 4].map((seed) => ({
      ...{ absolute: join(folder, `${seed}.csv`), path: `${seed}.csv` },
      ...{ options: {}, channels: [] },
    }));
    const told: { readonly fraction: number; readonly what: string }[] = [];
    const watch = {
      cancelled: () => false,
      progress: (fraction: number, what: string) => void told.push({ fraction, what }),
    };
    for (const [k, read] of readerIn(undefined)(tasks, watch, new Identities()).entries()) {
      assert.ok((await read).recording.ok);
      assert.ok(
        told.some(({ fraction, what }) => fraction === (k + 1) / 4 && what === `reading ${k + 1}.csv`),
        `${k + 1} of 4: ${JSON.stringify(told.slice(-3))}`,
      );
    }
    for (const [k, { fraction }] of told.entries()) assert.ok(k === 0 || fraction >= told[k - 1].fraction);
    assert.equal(told[told.length - 1].fraction, 1);
  });
});
