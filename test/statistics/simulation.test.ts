import { strict as assert } from 'node:assert';
import {
  coverage,
  densityMisses,
  equivalenceRate,
  familyRates,
  verdictRates,
} from '../../scripts/simulate/experiments.ts';
import { Limits, limits } from '../../scripts/simulate/limits.ts';
import { noise } from '../../scripts/simulate/noise.ts';
import { ridePool } from '../../scripts/simulate/pool.ts';
import { powerOf } from '../../src/statistics/repeats.ts';

// The short form of `npm run simulate`, with fewer experiments and a seed of its own. The seed is fixed, so a failure is
// a change of the code and never chance.
describe('by simulation', () => {
  const even = [0.03, 0.03] as const;
  const holds = (check: (limits: Limits) => void): void => {
    const checked = new Limits();
    check(checked);
    assert.deepEqual(checked.broken, []);
  };

  it("the default interval's coverage stays between 93.5 and 97.5 %, with and without a drift and an order", () => {
    const random = noise(2);
    holds((checked) => {
      for (const known of ['order', 'nothing'] as const)
        for (const runs of [3, 4, 6])
          checked.coverage(`${known}, ${runs} runs`, coverage({ scatter: even, runs, known }, 4000, random).percent);
      for (const runs of [3, 4, 6])
        checked.coverage(`drift, ${runs} runs`, coverage({ scatter: even, runs, drift: 0.02 }, 4000, random).percent);
      const uneven = coverage({ scatter: [0.02, 0.1], runs: 4 }, 4000, random);
      checked.coverage('uneven scatter', uneven.percent);
    });
  });

  it('pairs that are named keep their coverage, and a narrower interval, where conditions wander from pair to pair', () => {
    const random = noise(4);
    const of = (known: 'pairs' | 'order') =>
      coverage({ scatter: even, runs: 4, pairScatter: 0.08, known }, 3000, random);
    const [pairs, order] = [of('pairs'), of('order')];
    holds((checked) => checked.coverage('pairs', pairs.percent));
    assert.ok(pairs.halfWidth < 0.8 * order.halfWidth);
  });

  it('holds on made-up rides through the spectrum', () => {
    const random = noise(1);
    const pool = ridePool(120, random);
    holds((checked) => checked.coverage('rides', coverage({ scatter: even, runs: 4 }, 3000, random, pool).percent));
  });

  it('no interval of nine bands misses in more than 5 % of studies', () => {
    const random = noise(5);
    for (const runs of [3, 4, 6]) {
      const { misses } = familyRates({ scatter: even, runs, ratio: 0.9 }, { bands: 9, common: 0.5 }, 1500, random);
      holds((checked) => checked.atMost(`${runs} runs`, misses, limits.familyMisses));
    }
  });

  it('a claim at exactly its true value is supported and contradicted in under 3 % of studies each', () => {
    const random = noise(6);
    holds((checked) => {
      for (const runs of [4, 6]) {
        const rates = verdictRates({ scatter: even, runs, ratio: 0.85 }, 15, 4000, random);
        checked.atMost(`supported, ${runs} runs`, rates.supported, limits.wrongVerdicts);
        checked.atMost(`contradicted, ${runs} runs`, rates.contradicted, limits.wrongVerdicts);
      }
    });
  });

  it('a claim that is plainly true is supported, and one that is plainly false contradicted', () => {
    const random = noise(7);
    assert.ok(verdictRates({ scatter: even, runs: 4, ratio: 0.7 }, 15, 500, random).supported > 95);
    assert.ok(verdictRates({ scatter: even, runs: 4, ratio: 1 }, 15, 500, random).contradicted > 90);
  });

  it('what differs by the margin is seldom called the same, of ten bands as of one', () => {
    const random = noise(8);
    const setting = { scatter: even, runs: 6, ratio: 1.1 };
    for (const bands of [1, 10]) {
      const rate = equivalenceRate(setting, 0.1, { bands, confidence: 0.95 }, 2000, random);
      holds((checked) => checked.atMost(`${bands} bands`, rate, limits.falseEquivalence));
    }
  });

  it('the interval for all bins misses anywhere in under 5 % of spectra', () => {
    const { misses } = densityMisses({ runs: 4, bins: 100, averages: 80 }, 400, noise(9));
    holds((checked) => checked.atMost('densities', misses, limits.densityMisses));
  });

  it('what is promised of a number of runs is what is found', () => {
    const random = noise(10);
    for (const runs of [3, 4, 6]) {
      const { shown } = coverage({ scatter: even, runs, ratio: 0.92 }, 4000, random);
      assert.ok(
        Math.abs(shown - 100 * powerOf(Math.log(0.92), runs, { spread: 0.03 })) < 2.5,
        `${runs} runs: ${shown}`,
      );
    }
  });
});
