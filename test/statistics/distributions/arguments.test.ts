import { strict as assert } from 'node:assert';
import { requireDf, requireNumber, requireProbability } from '../../../src/statistics/distributions/arguments.ts';

describe('the doors of the distributions', () => {
  it('let in what has a meaning', () => {
    assert.doesNotThrow(() => {
      requireDf('df', 1e12);
      requireDf('df', 1e-9);
      requireProbability('p', 0);
      requireProbability('p', 1);
      requireNumber('x', -Infinity);
    });
  });

  it('name what they refuse, and its value', () => {
    for (const df of [0, -1, 1.0001e12, NaN])
      assert.throws(() => requireDf('df2', df), /^RangeError: df2 must be above 0/);
    for (const p of [-1e-9, 1 + 1e-9, NaN])
      assert.throws(() => requireProbability('q', p), new RegExp(`q must lie between 0 and 1, but is ${p}`));
    assert.throws(() => requireNumber('t', NaN), /t must be a number, but is NaN/);
  });
});
