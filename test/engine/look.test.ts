import { strict as assert } from 'node:assert';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openFile } from '../../src/disk/bytes.ts';
import { diskHost } from '../../src/disk/host.ts';
import { Engine } from '../../src/engine/engine.ts';
import { look } from '../../src/engine/look.ts';
import type { ReadOptions } from '../../src/readers/recording.ts';
import { quietWatch } from './memoryFiles.ts';

const folder = fileURLToPath(new URL('../readers/fixtures/', import.meta.url));

/** What is stated of a file, as options of the look and as a load writes them. */
const statements: readonly (readonly [ReadOptions, string])[] = [
  [{}, ''],
  [{ rate: 400, unit: 'g' }, 'rate 400 Hz unit g'],
  [{ unit: 'g', scale: 1 / 4096 }, `unit g scale ${1 / 4096}`],
];

describe('a look at a file', () => {
  it('finds and refuses what a load of the same file finds and refuses', async () => {
    const engine = new Engine(diskHost(folder, folder));
    const counts = { read: 0, refused: 0, found: 0 };
    for (const name of readdirSync(folder).filter((one) => /^\d/.test(one) && statSync(join(folder, one)).isFile()))
      for (const [options, written] of statements) {
        const looked = await look(await openFile(join(folder, name), name), options);
        const cells = [`load "${name}" ${written}`];
        const [{ value, error }] = (await engine.run({ cells, wanted: 'all' }, quietWatch)).results;
        if (looked.recording === undefined) {
          assert.ok(error !== undefined && looked.lines.some((line) => line.includes(error.message)), name);
          counts.refused++;
        } else if (value?.kind === 'runs') {
          assert.deepEqual(looked.recording.findings, value.runs[0].findings, name);
          counts.read++;
          counts.found += looked.recording.findings.length;
        } else assert.match(looked.lines.at(-1)!, /settles the unit/, `${name}: ${error?.message}`);
      }
    assert.ok(counts.read > 20 && counts.refused > 5 && counts.found > 10, JSON.stringify(counts));
  });
});
