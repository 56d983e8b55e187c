import { strict as assert } from 'node:assert';
import { evenlySampled } from '../../src/signal/spline.ts';
import { close, near, noise, record } from '../published/vectors.ts';

describe('evenlySampled', () => {
  it('follows a slow tone read at uneven times', () => {
    let t = 3;
    const times = noise(5, 400).map((u) => (t += 0.01 * (1 + u)));
    const found = evenlySampled(
      times,
      times.map((time) => Math.sin(2 * Math.PI * 2 * time)),
      100,
    );
    near(
      found.subarray(5, -5),
      Float64Array.from(found, (_, j) => Math.sin(2 * Math.PI * 2 * (times[0] + j / 100))).subarray(5, -5),
      1e-4,
    );
  });

  it('gives even readings back as they are', () => {
    const samples = record(2, 50);
    const times = samples.map((_, i) => i / 50);
    const found = evenlySampled(times, samples, 50);
    near(found, samples, 1e-13);
    assert.equal(found[0], samples[0]);
  });

  it('names the first reading whose time does not rise', () => {
    assert.throws(
      () => evenlySampled(Float64Array.of(0, 1, 1, 2), new Float64Array(4), 1),
      /reading 3, 1 s, does not follow 1 s/,
    );
    assert.throws(() => evenlySampled(Float64Array.of(1, 1, 2), new Float64Array(3), 1), /reading 2, 1 s/);
    assert.throws(() => evenlySampled(Float64Array.of(0), Float64Array.of(0), 1), /at least two/);
    assert.throws(() => evenlySampled(Float64Array.of(0, 1, 2), Float64Array.of(0, 1), 1), /at least two/);
    assert.throws(() => evenlySampled(Float64Array.of(0, 1), Float64Array.of(0, 1), 0), /a rate is above 0 Hz, not 0/);
    close(evenlySampled(Float64Array.of(0, 2), Float64Array.of(1, 3), 1)[1], 2, 1e-15);
  });
});
