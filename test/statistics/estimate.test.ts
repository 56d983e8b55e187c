import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { ifScattered, pAtLeast, pAtMost, ratioInterval, twoSidedP } from '../../src/statistics/estimate.ts';

const estimate = fc.record({
  difference: fc.double({ min: -2, max: 2, noNaN: true }),
  standardError: fc.double({ min: 0.01, max: 1, noNaN: true }),
  df: fc.double({ min: 1, max: 60, noNaN: true }),
});
const confidence = fc.double({ min: 0.5, max: 0.999, noNaN: true });
const near = (got: number, want: number): void => assert.ok(Math.abs(got - want) < 1e-9, `${got}, wanted ${want}`);

describe('an estimate of a difference of logarithms', () => {
  it('counts as scattered beyond rounding only', () => {
    const of = (standardError: number): unknown => ifScattered({ difference: 1, standardError, df: 3 });
    assert.equal(of(0), undefined);
    assert.equal(of(1e-12), undefined);
    assert.deepEqual(of(1.1e-12), { difference: 1, standardError: 1.1e-12, df: 3 });
  });

  it('by hand: 0.1 +- 2.7764 x 0.02 with 4 degrees of freedom is 1.0455 to 1.1683', () => {
    const { low, high } = ratioInterval({ difference: 0.1, standardError: 0.02, df: 4 }, 0.95);
    assert.deepEqual([low.toFixed(4), high.toFixed(4)], ['1.0455', '1.1683']);
  });

  it('leaves 1 outside its interval exactly when the two-sided p says so', () => {
    fc.assert(
      fc.property(estimate, confidence, (e, level) => {
        const { low, high } = ratioInterval(e, level);
        const p = twoSidedP(e);
        if (Math.abs(p - (1 - level)) > 1e-9) assert.equal(p < 1 - level, low > 1 || high < 1);
      }),
    );
  });

  it('has one-sided p that add up to 1, the smaller of which is half the two-sided one against 1', () => {
    fc.assert(
      fc.property(estimate, fc.double({ min: 0.2, max: 5, noNaN: true }), (e, ratio) => {
        near(pAtLeast(e, ratio) + pAtMost(e, ratio), 1);
        near(Math.min(pAtLeast(e, 1), pAtMost(e, 1)), twoSidedP(e) / 2);
      }),
    );
    const lower = { difference: -0.5, standardError: 0.1, df: 8 };
    assert.ok(pAtLeast(lower, 1) < 0.001 && pAtMost(lower, 1) > 0.999);
    near(pAtLeast(lower, Math.exp(-0.5)), 0.5);
  });
});
