import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { equivalencePower, runsForEquivalence } from '../../src/statistics/equivalencePower.ts';

const margin = fc.double({ min: 0.02, max: 0.3, noNaN: true });
const spread = fc.double({ min: 0.005, max: 0.1, noNaN: true });
const runs = fc.integer({ min: 2, max: 30 });

describe('equivalencePower', () => {
  it('at exactly the margin is at most 5 %, whatever the runs and the scatter', () => {
    fc.assert(
      fc.property(margin, spread, runs, (m, s, n) =>
        assert.ok(equivalencePower(m, s, n, 0.95, Math.log1p(m)) <= 0.05 + 1e-9),
      ),
      { numRuns: 60 },
    );
  });

  it('rises with the runs and the margin, falls with scatter and with the true change, and is even in it', () => {
    const least = 1e-9;
    fc.assert(
      fc.property(margin, spread, runs, (m, s, n) => {
        const power = equivalencePower(m, s, n);
        assert.ok(power >= 0 && power <= 1);
        // Where the test is hopeless a lucky small scatter is likelier with fewer runs, so the law begins above that.
        if (power > 0.2) assert.ok(equivalencePower(m, s, n + 1) >= power - least);
        assert.ok(equivalencePower(1.2 * m, s, n) >= power - least);
        assert.ok(equivalencePower(m, 1.2 * s, n) <= power + least);
        const moved = equivalencePower(m, s, n, 0.95, 0.01);
        assert.ok(moved <= power + least);
        assert.ok(Math.abs(equivalencePower(m, s, n, 0.95, -0.01) - moved) < least);
      }),
      { numRuns: 40 },
    );
  });

  it('the runs needed are the fewest that reach the power', () => {
    const needed = runsForEquivalence(0.05, { spread: 0.03 });
    assert.ok(needed && needed.power >= 0.8 && equivalencePower(0.05, 0.03, needed.runs - 1) < 0.8);
    assert.equal(runsForEquivalence(0.001, { spread: 0.3 }), undefined);
  });

  it('refuses plans that mean nothing', () => {
    assert.throws(() => equivalencePower(0, 0.03, 4), /margin must be above 0/);
    assert.throws(() => equivalencePower(0.05, 0, 4), /spread must be above 0/);
    assert.throws(() => equivalencePower(0.05, 0.03, 1), /at least 2/);
    assert.throws(() => runsForEquivalence(0.05, { spread: 0.03, power: 1 }), /power must lie between/);
  });
});
