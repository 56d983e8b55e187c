import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { runningRms, runningRmsAt } from '../../src/signal/running.ts';
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

describe('runningRmsAt', () => {
  it('is the running r.m.s. where the samples were taken evenly', () => {
    const samples = noise(4, 300);
    const times = Float64Array.from(samples, (_, i) => 3 + i / 50);
    const even = runningRms(samples, 25, 0.1);
    const { values, begin, maximum, maximumAt } = runningRmsAt(samples, times, { tau: 0.5, step: 0.02, mean: 0.1 });
    assert.equal(begin, 24);
    assert.equal(values.length, even.values.length);
    values.forEach((value, i) => close(value, even.values[i], 1e-12));
    close(maximum, even.maximum, 1e-12);
    assert.equal(maximumAt, even.maximumAt);
  });

  it('counts each sample of the last tau seconds once, however many they are', () => {
    const samples = noise(5, 400);
    const steps = noise(6, 400);
    let t = 0;
    const times = Float64Array.from(steps, (step) => (t += 0.02 * (1 + 0.9 * Math.tanh(step))));
    const { values, begin } = runningRmsAt(samples, times, { tau: 0.7, step: 0.02 });
    values.forEach((value, i) => {
      const at = times[begin + i];
      const held = samples.filter((_, j) => times[j] > at - 0.7 + 2e-5 && times[j] <= at && j <= begin + i);
      close(value, Math.sqrt(held.reduce((sum, x) => sum + x * x, 0) / held.length), 1e-12);
    });
  });

  it('leaves nothing of a loud moment behind, and gives nothing of a stretch shorter than a span', () => {
    const samples = new Float64Array(1000).fill(1e-8);
    samples[100] = 1e6;
    const times = Float64Array.from(samples, (_, i) => i / 100);
    const { values } = runningRmsAt(samples, times, { tau: 0.5, step: 0.01 });
    close(values[values.length - 1], 1e-8, 1e-12);
    assert.equal(
      runningRmsAt(samples.subarray(0, 30), times.subarray(0, 30), { tau: 0.5, step: 0.01 }).values.length,
      0,
    );
  });
});

describe('the largest of a running r.m.s.', () => {
  it('is the first of several that are alike', () => {
    const samples = Float64Array.of(0, 2, 2, 0, 0, 2, 2, 0);
    assert.equal(runningRms(samples, 2).maximumAt, 2);
    const times = Float64Array.from(samples, (_, i) => i);
    assert.equal(runningRmsAt(samples, times, { tau: 2, step: 1 }).maximumAt, 2);
  });
});
