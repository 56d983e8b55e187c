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
  it('can be had here, whatever the length up to 32,768', () => {
    for (const length of [1, 2, 3, 17, 64, 699, 701, 1001, 32_768])
      assert.ok(WelchVectors.for(windowShape('hann', length), 1), `${length}`);
    assert.equal(WelchVectors.for(windowShape('hann', 32_769), 1), undefined);
  });

  it('gives the density of the plain loop for every length to 600 and for larger primes, from few segments as well', () => {
    const lengths = Array.from({ length: 600 }, (_, k) => k + 1);
    for (const length of [...lengths, 699, 1009, 2 * 1009, 4 * 47 * 11, 4099, 16_411]) {
      const options = { shape: windowShape('hamming', length), rate: 350 };
      const segments = 1 + (length % 6);
      const samples = long.subarray(0, length + (segments - 1) * Math.ceil(length / 2));
      const [found, plain] = [true, false].map((vectors) => welchDensity([samples], { ...options, vectors }));
      assert.equal(found.segments, segments, `segments of ${length}`);
      near(found.density, plain.density, 1e-13, `length ${length}, ${segments} segments`);
    }
  });

  it('gives the density of the plain loop, whatever the segment, overlap and stretches', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(6, 26, 34, 64, 77, 128, 353, 360, 699, 700, 1000, 1024, 2048),
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

  it('keeps sums apart that share a loop, and minds nothing that another has left there', () => {
    const options = { shape: windowShape('hann', 705), rate: 350 };
    const broken = long.slice(0, 100_000).fill(NaN);
    assert.throws(() => welchDensity([broken], options), /no finite number/);
    const sums = [new WelchSum(options), new WelchSum({ ...options, shape: windowShape('flattop', 705) })];
    const parts = [long.subarray(0, 4000), long.subarray(4000, 7100)];
    for (const part of parts) for (const sum of sums) sum.addStretch(part);
    sums.forEach((sum, k) => {
      const shape = windowShape(k === 0 ? 'hann' : 'flattop', 705);
      const plain = welchDensity(parts, { shape, rate: 350, vectors: false });
      near(sum.density().density, plain.density, 1e-13, `sum ${k}`);
    });
    assert.deepEqual(sums[0].density().density, welchDensity(parts, options).density);
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
