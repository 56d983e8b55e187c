import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  holdsOfStepBound,
  isSameReading,
  converterStep,
  inGravity,
  meanOf,
  meanSquare,
  measured,
  some,
  stepBound,
  timeSpans,
  type CheckedChannel,
  type CheckedRun,
} from '../../../src/readers/checks/checked.ts';
import { blocksOf, lineThrough } from '../../../src/readers/checks/stationarity.ts';

const channel = (name: string, axis: boolean, ...samples: number[]): CheckedChannel => ({
  name,
  unit: 'g',
  axis,
  samples: Float64Array.from(samples),
});

describe('what the checks of a recording share', () => {
  it('looks at the axes, or at every channel where there is none', () => {
    const [x, temperature] = [channel('x', true, 1), channel('temperature', false, 2)];
    const run = { rate: 1, stretches: [{ from: 0, to: 1, start: 0 }] };
    assert.deepEqual(measured({ ...run, channels: [temperature, x] }), [x]);
    assert.deepEqual(measured({ ...run, channels: [temperature] }), [temperature]);
  });

  it('knows the size of a unit of acceleration in g, and none of another', () => {
    assert.equal(inGravity(channel('x', true)), 1);
    assert.equal(inGravity({ ...channel('x', true), unit: 'm/s^2' }), 1 / 9.80665);
    assert.equal(inGravity({ ...channel('x', true), unit: 'V' }), undefined);
  });

  it('bounds the converter’s step by samples beside each other, from above', () => {
    const samples = Float64Array.from({ length: 500 }, (_, i) => Math.round(100 * Math.sin(i * i)) / 100);
    assert.ok(stepBound(samples) >= converterStep(samples));
    assert.equal(stepBound(Float64Array.of(1, 1.5, 1.5, 3)), 0.5);
    assert.equal(stepBound(Float64Array.of(2, 2, 2)), Infinity);
  });

  it('tells by few samples what holds of that bound, as by all of them', () => {
    const values = fc.array(fc.constantFrom(0, 1e-9, 0.25, 0.5, 1, 3, NaN), { maxLength: 40 });
    const law = fc.property(values, fc.constantFrom(1e-10, 0.2, 0.25, 0.4, 0.5, 2, 10), (some, least) => {
      const samples = Float64Array.from(some);
      const holds = (bound: number): boolean => bound >= least;
      assert.equal(holdsOfStepBound(samples, holds), holds(stepBound(samples)));
    });
    fc.assert(law, { numRuns: 500 });
    // Where only every third is looked at the smaller steps beside it do not count, and the only small one comes last.
    const long = Float64Array.from({ length: 250_000 }, (_, i) => (i % 6 < 3 ? 0 : 1) + (i % 3) / 100);
    long[249_999] -= 0.5;
    for (const least of [0.4, 0.6, 1])
      assert.equal(
        holdsOfStepBound(long, (bound) => bound >= least),
        stepBound(long) >= least,
        String(least),
      );
    assert.equal(stepBound(long), 0.5, 'a step that is told by the last sample alone');
  });

  it('looks at a hundred thousand samples of more, evenly picked, on a grid or off it', () => {
    const made = (seed: number, scale: number): Float64Array =>
      Float64Array.from({ length: 250_000 }, (_, i) => Math.round(scale * Math.sin(seed * i * i)) / scale);
    const all = [1, 2, 3, 4, 5, 6].map((seed) => made(seed, seed % 2 === 0 ? 1000 : 1e7));
    for (const samples of [...all, ...all]) {
      const picked = Float64Array.from(some(samples));
      assert.deepEqual([picked.length, picked[1]], [83_334, samples[3]]);
      const steps = [...picked.slice(1)].map((value, i) => Math.abs(value - picked[i])).filter((step) => step > 2e-9);
      assert.equal(
        stepBound(samples),
        steps.reduce((least, step) => Math.min(least, step)),
      );
      picked.sort();
      const apart = [...picked.slice(1)].map((value, i) => value - picked[i]).filter((step) => step > 2e-9);
      assert.equal(
        converterStep(samples),
        apart.reduce((least, step) => Math.min(least, step)),
      );
    }
  });

  it('takes means over a part or the whole', () => {
    const samples = Float64Array.of(1, 2, 3, 10);
    assert.deepEqual([meanOf(samples), meanOf(samples, 1), meanOf(samples, 1, 3)], [4, 5, 2.5]);
    assert.deepEqual(
      [meanSquare(samples, 2), meanSquare(samples, 2, 3), meanSquare(samples, 2, 0, 3)],
      [16.5, 64, 2 / 3],
    );
  });

  it('picks no more samples than it may, evenly, the first one first', () => {
    const samples = Float64Array.of(0, 1, 2, 3, 4, 5, 6);
    assert.deepEqual([...some(samples, 7)], [0, 1, 2, 3, 4, 5, 6]);
    assert.deepEqual([...some(samples, 4)], [0, 2, 4, 6]);
    assert.deepEqual([...some(samples, 3)], [0, 3, 6]);
  });

  it('takes for the converter’s step the least difference that is more than rounding', () => {
    assert.equal(converterStep(Float64Array.of(4, 0, 1, 6)), 1);
    assert.equal(converterStep(Float64Array.of(0, 0.5, 0.5 + 1e-12, 2)), 0.5);
    assert.equal(converterStep(Float64Array.of(3, 3, 3)), 0);
    assert.ok(isSameReading(0.5, 0.5 + 1e-12, 2) && !isSameReading(0.5, 0.5 + 1e-8, 2));
  });

  it('tells spans by the samples’ own times where they were not taken evenly', () => {
    const run = { rate: 10, stretches: [{ from: 0, to: 4, start: 0 }], channels: [] };
    const times = Float64Array.of(0, 0.02, 0.3, 0.35);
    assert.deepEqual(timeSpans({ ...run, times }, [{ from: 1, to: 3 }]), [{ from: 0.02, to: 0.4 }]);
  });

  it('tells spans in seconds from the first sample, over a gap too, and two hundred of them at most', () => {
    const stretches = [
      { from: 0, to: 10, start: 0 },
      { from: 10, to: 20, start: 3 },
    ];
    const run: CheckedRun = { rate: 10, stretches, channels: [] };
    const spans = [
      { from: 2, to: 4 },
      { from: 8, to: 12 },
      { from: 10, to: 10 },
    ];
    const found = timeSpans(run, spans).map(({ from, to }) => [from, to].map((time) => Number(time.toFixed(9))));
    assert.deepEqual(found, [
      [0.2, 0.4],
      [0.8, 3.2],
      [3, 3.1],
    ]);
    const many = timeSpans(run, [...Array<{ from: number; to: number }>(200).fill({ from: 0, to: 1 }), spans[1]]);
    assert.equal(many.length, 200);
    assert.equal(many[199].to.toFixed(9), '3.200000000');
  });

  it('cuts whole blocks, none across a gap, each with the mean square of all axes about their means', () => {
    const stretches = [
      { from: 0, to: 5, start: 0 },
      { from: 5, to: 8, start: 9 },
    ];
    const channels = [channel('x', true, 1, -1, 1, -1, 0, 2, -2, 0), channel('y', true, 0, 0, 3, -3, 0, 0, 0, 0)];
    assert.deepEqual(blocksOf({ rate: 1, stretches, channels }, 2), [
      { from: 0, to: 2, power: 1 },
      { from: 2, to: 4, power: 10 },
      { from: 5, to: 7, power: 4 },
    ]);
  });

  it('fits a line by least squares: its slope, and the slope over its standard error', () => {
    // Residuals -1/3, 2/3, -1/3 and a slope of 1: its variance is (2/3) / 1 / 2.
    const { slope, t } = lineThrough([0, 2, 2]);
    assert.ok(Math.abs(slope - 1) < 1e-12 && Math.abs(t - Math.sqrt(3)) < 1e-12);
    assert.equal(lineThrough([5, 7, 9, 11]).slope, 2);
  });
});
