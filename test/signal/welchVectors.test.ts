import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { Cancelled } from '../../src/signal/cancel.ts';
import { welchDensity, WelchSum } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { WelchVectors } from '../../src/signal/welchVectors.ts';
import { near, record } from '../published/vectors.ts';

const long = record(11, 300_000);

describe('WelchVectors', () => {
  it('can be had here, for lengths without a prime factor above 13', () => {
    for (const length of [1, 2, 3, 64, 700, 1000, 1001, 32_768])
      assert.ok(WelchVectors.for(windowShape('hann', length), 1));
    for (const length of [17, 706, 65_536]) assert.equal(WelchVectors.for(windowShape('hann', length), 1), undefined);
  });

  it('gives the density of the plain loop, whatever the segment, overlap and stretches', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(6, 26, 64, 77, 128, 360, 700, 1000, 1024, 2048),
        fc.constantFrom(0, 0.5, 0.66, 0.75),
        fc.integer({ min: 3000, max: 290_000 }),
        (length, overlap, cut) => {
          const stretches = [long.subarray(0, cut), long.subarray(cut)];
          const options = { shape: windowShape('blackman', length), rate: 350, overlap };
          const found = welchDensity(stretches, options);
          const plain = welchDensity(stretches, { ...options, vectors: false });
          assert.deepEqual([found.segments, found.averages], [plain.segments, plain.averages]);
          near(found.density, plain.density, 1e-13);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('adds up over blocks and can be asked for the density more than once', () => {
    const options = { shape: windowShape('hann', 512), rate: 350 };
    const sum = new WelchSum(options);
    for (let from = 0; from < long.length; from += 70_000) sum.addBlock(long.subarray(from, from + 70_000));
    const first = sum.density();
    near(first.density, welchDensity([long], { ...options, vectors: false }).density, 1e-13);
    assert.deepEqual(sum.density().density, first.density);
  });

  it('stops when it is cancelled', () => {
    let asked = 0;
    const cancelled = (): boolean => ++asked > 3;
    assert.throws(() => welchDensity([long], { shape: windowShape('hann', 256), rate: 1, cancelled }), Cancelled);
  });

  it('is the build of its source, byte for byte', () => {
    const root = fileURLToPath(new URL('../..', import.meta.url));
    const built = execFileSync(process.execPath, ['scripts/wasm/build.mjs', '--print', 'welch'], {
      cwd: root,
      encoding: 'utf8',
    });
    assert.equal(readFileSync(`${root}/src/signal/welchKernel.ts`, 'utf8'), built);
  });
});
