import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { runningRms } from '../../src/signal/running.ts';
import { close, noise } from '../published/vectors.ts';

describe('runningRms', () => {
  it('equals the r.m.s. of each span, whatever its length', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 90 }), fc.integer({ min: 1, max: 90 }), fc.nat(), (length, more, seed) => {
        const samples = noise(seed, length + more - 1);
        const { values } = runningRms(samples, length, 0.25);
        assert.equal(values.length, more);
        values.forEach((value, i) => {
          const squares = samples.subarray(i, i + length).reduce((sum, x) => sum + (x - 0.25) ** 2, 0);
          close(value, Math.sqrt(squares / length), 1e-12);
        });
      }),
    );
  });

  it('says its maximum and the sample that its span ends with', () => {
    const samples = new Float64Array(100);
    samples.fill(2, 40, 50);
    const { maximum, maximumAt } = runningRms(samples, 10);
    assert.deepEqual([maximum, maximumAt], [2, 49]);
  });

  it('leaves nothing of a loud moment behind in the quiet after it', () => {
    const samples = new Float64Array(1000).fill(1e-8);
    samples[100] = 1e6;
    const { values } = runningRms(samples, 50);
    close(values[values.length - 1], 1e-8, 1e-12);
    close(values[101 - 49 + 49], 1e-8, 1e-12);
  });

  it('refuses a span longer than the stretch', () => {
    assert.throws(
      () => runningRms(new Float64Array(9), 10),
      /over 10 samples needs a stretch at least as long, not one of 9/,
    );
  });
});
