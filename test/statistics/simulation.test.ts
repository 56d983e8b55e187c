import { strict as assert } from 'node:assert';
import {
  coverage,
  equivalenceRate,
  familyAlarms,
  oneRunCoverage,
  verdictRates,
} from '../../scripts/simulate/experiments.ts';
import { Limits, limits } from '../../scripts/simulate/limits.ts';
import { noise } from '../../scripts/simulate/noise.ts';
import { ridePool, type RideLevels } from '../../scripts/simulate/pool.ts';

// The short form of `npm run simulate`, with fewer rides and experiments and a seed of its own. The seed is fixed, so
// a failure is a change of the code and never chance.
describe('on made-up rides, by simulation', () => {
  let pool: RideLevels[];
  const holds = (check: (limits: Limits) => void): void => {
    const checked = new Limits();
    check(checked);
    assert.deepEqual(checked.broken, []);
  };

  before(() => {
    pool = ridePool(300, noise(1));
  });

  it("the default interval's coverage stays between 93.5 and 97.5 %, at 3, 4 and 6 runs and 3 and 6 % scatter", () => {
    const random = noise(2);
    holds((checked) => {
      for (const scatter of [0.03, 0.06]) {
        for (const runs of [3, 4, 6]) {
          const { welch } = coverage(pool, { scatter, runs }, ['welch'], 4000, random);
          checked.coverage(`scatter ${scatter}, ${runs} runs`, welch?.percent ?? 0);
        }
      }
    });
  });

  it('ABBA with the trend method keeps its coverage whatever the drift; all of A first does not', () => {
    const random = noise(3);
    holds((checked) => {
      for (const drift of [0.01, 0.02]) {
        for (const runs of [4, 6]) {
          const { trend } = coverage(pool, { scatter: 0.03, runs, drift }, ['trend'], 4000, random);
          checked.coverage(`drift ${drift}, ${runs} runs`, trend?.percent ?? 0);
        }
      }
    });
    const { welch } = coverage(pool, { scatter: 0.03, runs: 4, drift: 0.02, order: 'AABB' }, ['welch'], 2000, random);
    assert.ok(welch && welch.percent < 80, 'an order of all A and then all B is what the trend is for');
  });

  it('pairing keeps its coverage, and a narrower interval, where conditions wander from pair to pair', () => {
    const cells = coverage(pool, { scatter: 0.03, runs: 4, pairScatter: 0.08 }, ['welch', 'paired'], 3000, noise(4));
    holds((checked) => checked.coverage('paired', cells.paired?.percent ?? 0));
    assert.ok(cells.paired && cells.welch && cells.paired.halfWidth < 0.8 * cells.welch.halfWidth);
  });

  it('nine bands without a change raise a false alarm in under 5 % of studies, and would in far more uncorrected', () => {
    const random = noise(5);
    for (const runs of [3, 4, 6]) {
      const alarms = familyAlarms(pool, { scatter: 0.03, runs }, 1500, random);
      holds((checked) => checked.atMost(`${runs} runs`, alarms.holm, limits.familyAlarms));
      assert.ok(alarms.uncorrected > 10);
    }
  });

  it('a claim at exactly its true value is supported in under 3 % of studies and contradicted in under 3 %', () => {
    const random = noise(6);
    holds((checked) => {
      for (const runs of [4, 6]) {
        const rates = verdictRates(pool, { scatter: 0.03, runs, ratio: 0.85 }, 15, 4000, random);
        checked.atMost(`supported, ${runs} runs`, rates.supported, limits.wrongVerdicts);
        checked.atMost(`contradicted, ${runs} runs`, rates.contradicted, limits.wrongVerdicts);
      }
    });
  });

  it('a claim that is plainly true is supported, and one that is plainly false contradicted', () => {
    const random = noise(7);
    assert.ok(verdictRates(pool, { scatter: 0.03, runs: 4, ratio: 0.7 }, 15, 500, random).supported > 95);
    assert.ok(verdictRates(pool, { scatter: 0.03, runs: 4, ratio: 1 }, 15, 500, random).contradicted > 90);
  });

  it('what differs by the margin is called equivalent in about 5 % of studies at most', () => {
    const rate = equivalenceRate(pool, { scatter: 0.03, runs: 6, ratio: 1.1 }, 0.1, 4000, noise(8));
    holds((checked) => checked.atMost('margin 10 %', rate, limits.falseEquivalence));
  });

  it('one run each does not hold its 95 % once runs scatter, which is why it bars a verdict', () => {
    assert.ok(oneRunCoverage(pool, 0.12, 1000, noise(9)) < 90);
  });
});
