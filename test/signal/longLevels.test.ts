import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { levels } from '../../src/signal/levels.ts';
import { LevelSums, MeanSum } from '../../src/signal/longLevels.ts';
import { close, noise } from '../published/vectors.ts';

/** Levels of blocks of so many samples. */
function levelsOfBlocks(samples: Float64Array, size: number): ReturnType<typeof levels> {
  const blocks = Array.from({ length: Math.ceil(samples.length / size) }, (_, i) =>
    samples.slice(i * size, (i + 1) * size),
  );
  const mean = new MeanSum();
  for (const block of blocks) mean.add(block);
  const sums = new LevelSums(mean.found);
  for (const block of blocks) sums.add(block);
  if (sums.isUnsettled) for (const block of blocks) sums.addAgain(block);
  return sums.levels;
}

describe('levels of a signal that comes block by block', () => {
  it('are those of the whole but for the last digits, of noise and of readings in steps', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 3000 }),
        fc.integer({ min: 1, max: 700 }),
        fc.nat(),
        fc.constantFrom(0, 0.01, 0.5),
        (count, size, seed, step) => {
          const samples = noise(seed, count).map((value) => (step === 0 ? value : Math.round(value / step) * step) + 1);
          const [found, wanted] = [levelsOfBlocks(samples, size), levels(samples)];
          assert.deepEqual(Object.keys(found).sort(), Object.keys(wanted).sort());
          for (const [key, value] of Object.entries(wanted) as [keyof typeof wanted, number | null][]) {
            const own = found[key];
            if (value === null || own === null) assert.equal(own, value, key);
            else assert.ok(Math.abs(own - value) <= 1e-11 * Math.max(1, Math.abs(value)), `${key}: ${own}, ${value}`);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  it('need no third pass where every distance that is asked for is one that is held by all beside it', () => {
    const samples = Float64Array.from({ length: 4900 }, (_, i) => i % 7);
    const mean = new MeanSum();
    mean.add(samples);
    const sums = new LevelSums(mean.found);
    sums.add(samples);
    assert.equal(sums.isUnsettled, false);
    close(sums.levels.p999, 3, 1e-12);
  });
});
