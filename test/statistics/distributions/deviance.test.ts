import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { relativeDeviance } from '../../../src/statistics/distributions/deviance.ts';
import { close } from '../../published/vectors.ts';

describe('relativeDeviance', () => {
  it('is ratio - 1 - ln(ratio)', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 50, noNaN: true }), (ratio) => {
        const plain = ratio - 1 - Math.log(ratio);
        assert.ok(Math.abs(relativeDeviance(ratio, ratio - 1) - plain) <= 4e-16 * (1 + ratio));
      }),
    );
  });

  it('keeps its digits near 1, where it is half the square of the difference', () => {
    for (const d of [1e-9, -1e-9, 1e-5, -1e-5]) close(relativeDeviance(1 + d, d), d ** 2 / 2 - d ** 3 / 3, 1e-9);
    assert.equal(relativeDeviance(1, 0), 0);
  });
});
