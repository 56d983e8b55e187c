import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { ifScattered, twoSidedP } from '../../src/statistics/estimate.ts';
import { statement } from '../../src/statistics/interval.ts';

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
});

describe('the statement of a row', () => {
  it('by hand: 0.1 +- 2.7764 x 0.02 with 4 degrees of freedom is 1.0455 to 1.1683', () => {
    const { low, high } = statement({ difference: 0.1, standardError: 0.02, df: 4 }, 0.95, 1).interval;
    assert.deepEqual([low.toFixed(4), high.toFixed(4)], ['1.0455', '1.1683']);
  });

  it('of m rows together has m times the p, and the interval at alpha / m', () => {
    const e = { difference: 0.1, standardError: 0.05, df: 4 };
    const { p, interval } = statement(e, 0.95, 3);
    near(p, 3 * twoSidedP(e));
    near(interval.low, statement(e, 1 - 0.05 / 3, 1).interval.low);
    assert.equal(statement(e, 0.95, 100).p, 1);
  });

  it('leaves 1 outside its interval exactly when its p says so', () => {
    fc.assert(
      fc.property(estimate, confidence, fc.integer({ min: 1, max: 30 }), (e, level, family) => {
        const { interval, p } = statement(e, level, family);
        if (Math.abs(p - (1 - level)) > 1e-9) assert.equal(p < 1 - level, interval.low > 1 || interval.high < 1);
      }),
    );
  });
});
