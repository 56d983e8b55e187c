import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { levels } from '../../src/signal/levels.ts';
import { MeanSum } from '../../src/signal/blockSums.ts';
import { LevelSums } from '../../src/signal/longLevels.ts';
import { noise } from '../published/vectors.ts';

/** Levels of blocks of so many samples. */
function levelsOfBlocks(samples: Float64Array, size: number): ReturnType<typeof levels> {
  const blocks = Array.from({ length: Math.ceil(samples.length / size) }, (_, i) =>
    samples.slice(i * size, (i + 1) * size),
  );
  const mean = new MeanSum();
  for (const block of blocks) mean.add(block);
  const sums = new LevelSums(mean.found);
  for (const block of blocks) sums.add(block);
  for (const block of blocks) sums.addAgain(block);
  return sums.levels;
}

describe('levels of a signal that comes block by block', () => {
  it('are to the last digit those of the whole, of noise and of readings in steps, however far from 0', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9000 }),
        fc.integer({ min: 1, max: 3000 }),
        fc.nat(),
        fc.constantFrom(0, 0.01, 0.5),
        fc.constantFrom(0, 1, -1e6, 1e13),
        (count, size, seed, step, mean) => {
          const samples = noise(seed, count).map(
            (value) => (step === 0 ? value : Math.round(value / step) * step) + mean,
          );
          assert.deepEqual(levelsOfBlocks(samples, size), levels(samples));
        },
      ),
      { numRuns: 100 },
    );
  });

  it('hold what is all alike', () => {
    const samples = new Float64Array(5000).fill(0.1);
    assert.deepEqual(levelsOfBlocks(samples, 700), levels(samples));
    for (const few of [Float64Array.of(3.5), Float64Array.of(3.5, -1)])
      assert.deepEqual(levelsOfBlocks(few, 700), levels(few));
  });
});
