import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { seededRandom } from '../../src/statistics/random.ts';

const draws = (seed: number, count: number): number[] => Array.from({ length: count }, seededRandom(seed));

describe('seededRandom', () => {
  it('gives the same numbers for the same seed on every machine, and others for another', () => {
    // The published generator Mulberry32 with seed 0: 1144304738 and 1416247 of 2^32.
    assert.deepEqual(
      draws(0, 2).map((value) => value * 2 ** 32),
      [1144304738, 1416247],
    );
    fc.assert(fc.property(fc.integer(), (seed) => assert.deepEqual(draws(seed, 5), draws(seed + 2 ** 32, 5))));
    assert.notDeepEqual(draws(1, 3), draws(2, 3));
  });

  it('stays in [0, 1) and spreads evenly over it', () => {
    const tenths = new Array<number>(10).fill(0);
    for (const value of draws(7, 10_000)) {
      assert.ok(value >= 0 && value < 1);
      tenths[Math.floor(10 * value)]++;
    }
    // Five standard deviations of a count of 1000 are 150.
    for (const count of tenths) assert.ok(Math.abs(count - 1000) < 150, `${count} of 10 000`);
  });
});
