import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  normalCdf,
  normalQuantile,
  normalSurvival,
  normalUpperQuantile,
} from '../../../src/statistics/distributions/normal.ts';
import { close } from '../../published/vectors.ts';
import { probability } from './arbitraries.ts';

describe('the normal distribution', () => {
  it('gives back the probability of its quantile, in the smaller tail', () => {
    fc.assert(
      fc.property(probability, (p) => {
        if (p < 0.5) close(normalCdf(normalQuantile(p)), p, 1e-11);
        close(normalSurvival(normalUpperQuantile(p)), p, 1e-11);
      }),
    );
  });

  it('is symmetric', () => {
    fc.assert(
      fc.property(fc.double({ min: -37, max: 37, noNaN: true }), probability, (z, p) => {
        assert.equal(normalCdf(z), normalSurvival(-z));
        close(normalCdf(z) + normalSurvival(z), 1, 1e-15);
        assert.equal(normalUpperQuantile(p) + normalQuantile(p), 0);
      }),
    );
  });

  it('answers the ends of its range with limits, never with NaN', () => {
    assert.deepEqual([normalQuantile(0), normalQuantile(1), normalQuantile(0.5)], [-Infinity, Infinity, 0]);
    assert.deepEqual(
      [normalUpperQuantile(1), normalUpperQuantile(0), normalUpperQuantile(0.5)],
      [-Infinity, Infinity, 0],
    );
    assert.deepEqual([normalCdf(-Infinity), normalCdf(Infinity), normalCdf(-200), normalCdf(0)], [0, 1, 0, 0.5]);
  });

  it('refuses what is no number or no probability', () => {
    assert.throws(() => normalCdf(NaN), /z must be a number/);
    assert.throws(() => normalQuantile(NaN), /p must lie between 0 and 1, but is NaN/);
    assert.throws(() => normalUpperQuantile(-0.1), /q must lie between 0 and 1, but is -0.1/);
  });
});
