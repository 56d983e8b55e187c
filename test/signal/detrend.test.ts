import { strict as assert } from 'node:assert';
import { removeLine, removeMean } from '../../src/signal/detrend.ts';
import { close } from '../published/vectors.ts';

describe('removeMean and removeLine', () => {
  it('remove what was added, in place', () => {
    const samples = Float64Array.of(1, -1, 2, -2).map((value) => value + 7);
    assert.equal(removeMean(samples, samples), 7);
    assert.deepEqual([...samples], [1, -1, 2, -2]);
  });

  it('fit one line to all stretches, each at its own time', () => {
    const stretches = [
      { from: 0, to: 5, start: 0 },
      { from: 5, to: 9, start: 10 },
    ];
    const samples = Float64Array.from({ length: 9 }, (_, i) => 3 + 0.5 * (i < 5 ? i / 2 : 10 + (i - 5) / 2));
    const { offset, slope } = removeLine(samples, samples, stretches, 2);
    close(offset, 3, 1e-12);
    close(slope, 0.5, 1e-12);
    assert.ok(Math.max(...samples.map(Math.abs)) < 1e-12);
  });

  it('fit a line to the times of samples that were not taken evenly', () => {
    const times = Float64Array.of(0, 0.1, 0.5, 0.6, 2, 2.2);
    const samples = times.map((t) => 1 - 4 * t);
    const { offset, slope } = removeLine(samples, samples, [{ from: 0, to: 6, start: 0 }], 2.5, times);
    close(offset, 1, 1e-12);
    close(slope, -4, 1e-12);
  });

  it('refuse stretches that do not hold the whole signal', () => {
    const samples = new Float64Array(5);
    assert.throws(
      () => removeLine(samples, samples, [{ from: 0, to: 4, start: 0 }], 1),
      /hold 4 samples, the signal 5/,
    );
    assert.doesNotThrow(() => removeLine(samples, samples, [{ from: 0, to: 5, start: 0 }], 1));
  });
});
