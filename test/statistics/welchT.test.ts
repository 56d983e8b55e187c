import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { pooledT } from '../../src/statistics/pooledT.ts';
import { welchT } from '../../src/statistics/welchT.ts';

const value = fc.double({ min: -3, max: 3, noNaN: true });

describe('welchT', () => {
  it('of two runs a side by hand: variances 2 and 8 give se^2 = 5 and 25 / 17 degrees of freedom', () => {
    const found = welchT([1, 3], [10, 14]);
    assert.ok(found);
    assert.equal(found.difference, 10);
    assert.ok(Math.abs(found.standardError - Math.sqrt(5)) < 1e-15);
    // (1 + 4)^2 / (1^2 / 1 + 4^2 / 1)
    assert.ok(Math.abs(found.df - 25 / 17) < 1e-14);
  });

  it('has the degrees of freedom of the one side that scatters', () => {
    assert.equal(welchT([1, 1, 1, 1], [2, 3, 4])?.df, 2);
  });

  it('has the standard error of the pooled one for equal counts, and no more degrees of freedom', () => {
    const side = fc.array(value, { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(side, side, (one, other) => {
        const count = Math.min(one.length, other.length);
        const [a, b] = [one.slice(0, count), other.slice(0, count)];
        const [welch, pooled] = [welchT(a, b), pooledT(a, b)];
        if (welch === undefined || pooled === undefined) return assert.equal(welch, pooled);
        assert.ok(Math.abs(welch.standardError / pooled.standardError - 1) < 1e-9);
        assert.ok(welch.df >= count - 1 - 1e-9 && welch.df <= pooled.df + 1e-9);
      }),
    );
  });

  it('keeps the degrees of freedom of scatter too small to be squared', () => {
    assert.ok(Math.abs((welchT([0, 2e-11], [0, 4e-11])?.df ?? NaN) - 25 / 17) < 1e-9);
  });

  it('gives none with fewer than 2 runs on a side, or without scatter beyond rounding', () => {
    assert.equal(welchT([1], [2, 3]), undefined);
    assert.equal(welchT([2, 3], [1]), undefined);
    assert.equal(welchT([0.1, 0.1, 0.1], [0.3, 0.3, 0.3]), undefined);
    assert.equal(welchT([0, 1e-13], [1, 1]), undefined);
  });
});
