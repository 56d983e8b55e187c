import { strict as assert } from 'node:assert';
import {
  changeDb,
  changePercent,
  haveLogarithms,
  logarithms,
  meanAndVariance,
  powerPercent,
} from '../../src/statistics/summary.ts';

describe('meanAndVariance', () => {
  it('divides the squares by n - 1', () => {
    assert.deepEqual(meanAndVariance([2, 4, 9]), { n: 3, mean: 5, variance: 13 });
    assert.deepEqual(meanAndVariance([2, 4]), { n: 2, mean: 3, variance: 2 });
  });

  it('has no variance for one value, and refuses none', () => {
    assert.deepEqual(meanAndVariance([7]), { n: 1, mean: 7, variance: 0 });
    assert.throws(() => meanAndVariance([]), /at least one number/);
  });
});

describe('logarithms', () => {
  it('are natural, of levels above 0', () => {
    assert.deepEqual(logarithms([1, Math.E]), [0, 1]);
    assert.throws(() => logarithms([1, 0]), /levels must be finite and above 0, but one is 0/);
    assert.throws(() => logarithms([1, Infinity]), /but one is Infinity/);
  });

  it('are had by finite levels above 0 alone', () => {
    assert.deepEqual([[1, 2], [], [1, 0], [-1, 1], [1, NaN], [Infinity]].map(haveLogarithms), [
      true,
      true,
      false,
      false,
      false,
      false,
    ]);
  });
});

describe('a ratio of amplitudes', () => {
  it('is a change in percent, in decibels and in percent of power', () => {
    assert.equal(changePercent(0.75), -25);
    assert.equal(changeDb(10), 20);
    assert.equal(powerPercent(0.5), -75);
  });
});
