import { strict as assert } from 'node:assert';
import { nextSmooth } from '../../src/signal/bluestein.ts';

describe('nextSmooth', () => {
  it('is the smallest length from there on without a prime factor above 5', () => {
    const smooth = (value: number): boolean => {
      for (const prime of [2, 3, 5]) while (value % prime === 0) value /= prime;
      return value === 1;
    };
    for (let least = 1; least < 700; least++) {
      let expected = least;
      while (!smooth(expected)) expected++;
      assert.equal(nextSmooth(least), expected);
    }
  });
});
