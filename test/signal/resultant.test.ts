import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { bandMeanSquare, bandRms } from '../../src/signal/band.ts';
import { confidenceFactors } from '../../src/signal/confidence.ts';
import { levels } from '../../src/signal/levels.ts';
import {
  resultantLength,
  resultantLevels,
  resultantRunning,
  resultantRunningAt,
  summed,
  summedDensity,
} from '../../src/signal/resultant.ts';
import { runningRms, runningRmsAt } from '../../src/signal/running.ts';
import { welchDensity, type Density } from '../../src/signal/welch.ts';
import { chiSquareQuantile } from '../../src/statistics/distributions/chiSquare.ts';
import { seeded } from '../charts/madeUp.ts';
import { windowShape } from '../../src/signal/windows.ts';

const rate = 100;
const count = 400;
const shape = windowShape('hann', 64);

/** Axes of noise, one coloured, each about a mean of its own. */
const axes = fc
  .array(
    fc.tuple(
      fc.infiniteStream(fc.double({ min: -1, max: 1, noNaN: true })),
      fc.double({ min: -2, max: 2, noNaN: true }),
    ),
    {
      minLength: 3,
      maxLength: 3,
    },
  )
  .map((all) => all.map(([stream, mean]) => Float64Array.from(stream.take(count), (value) => value + mean)));
const angles = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0, max: 7, noNaN: true })));

/** The same vector seen from axes that are turned about each axis in turn. */
function turned(given: readonly Float64Array[], by: readonly number[]): Float64Array[] {
  return by.reduce<Float64Array[]>(
    (all, angle, about) => {
      const [p, q] = [(about + 1) % 3, (about + 2) % 3];
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      return all.map((axis, n) => {
        if (n === p) return axis.map((_, i) => c * all[p][i] - s * all[q][i]);
        return n === q ? axis.map((_, i) => s * all[p][i] + c * all[q][i]) : axis;
      });
    },
    [...given],
  );
}

const densityOf = (given: readonly Float64Array[]): Density =>
  summedDensity(given.map((axis) => welchDensity([axis], { shape, rate })));
const figuresOf = (given: readonly Float64Array[]): number[] => {
  const { mean, rms, totalRms, peak, p99, p999 } = resultantLevels(given);
  return [mean, rms, totalRms, peak, p99, p999, bandRms(densityOf(given), 3, 17), ...densityOf(given).density];
};
const near = (found: readonly number[], expected: readonly number[], tolerance = 1e-9): void =>
  found.forEach((value, i) => assert.ok(Math.abs(value - expected[i]) <= tolerance * (1e-3 + Math.abs(expected[i]))));

describe('the resultant', () => {
  it('is of a vector that turns at one speed as long as the circle’s radius, and no vibration at twice its frequency', () => {
    const at = (i: number): number => (2 * Math.PI * 12.5 * i) / rate;
    const circle = [Math.cos, Math.sin].map((of) => Float64Array.from({ length: count }, (_, i) => 5 + 2 * of(at(i))));
    near([...resultantLength(circle, [5, 5])], Array<number>(count).fill(2));
    const { rms, peak, crest, mean, totalRms } = resultantLevels(circle);
    near([rms, peak, crest ?? NaN, mean, totalRms], [2, 2, 1, Math.sqrt(50), Math.sqrt(54)]);
    near([bandRms(densityOf(circle), 10, 15), bandRms(densityOf(circle), 20, 30)], [2, 0], 1e-6);
  });

  it('is the same however its axes are turned', () => {
    fc.assert(
      fc.property(axes, angles, (given, by) => near(figuresOf(turned(given, by)), figuresOf(given))),
      {
        numRuns: 50,
      },
    );
  });

  it('grows as its axes do', () => {
    fc.assert(
      fc.property(axes, fc.double({ min: 0.01, max: 100, noNaN: true }), (given, scale) => {
        const grown = given.map((axis) => axis.map((value) => scale * value));
        const [before, after] = [given, grown].map(figuresOf);
        near(
          after.slice(0, 7),
          before.slice(0, 7).map((value) => scale * value),
        );
        near(
          after.slice(7),
          before.slice(7).map((value) => scale ** 2 * value),
        );
      }),
      { numRuns: 30 },
    );
  });

  it('has a mean square that adds up over bands and over axes', () => {
    fc.assert(
      fc.property(axes, fc.double({ min: 0, max: 50, noNaN: true }), (given, edge) => {
        const all = densityOf(given);
        near([bandMeanSquare(all, 0, edge) + bandMeanSquare(all, edge, 50)], [bandMeanSquare(all, 0, 50)]);
        const each = given.map((axis) => bandMeanSquare(densityOf([axis]), 0, edge));
        near([each.reduce((sum, one) => sum + one, 0)], [bandMeanSquare(all, 0, edge)]);
        near([given.reduce((sum, axis) => sum + levels(axis).rms ** 2, 0)], [resultantLevels(given).rms ** 2]);
      }),
      { numRuns: 30 },
    );
  });

  it('of one axis is that axis', () => {
    fc.assert(
      fc.property(axes, ([axis]) => {
        const { mean, rms, totalRms, peak, p99, p999 } = levels(axis);
        const found = resultantLevels([axis]);
        near([found.mean, found.rms, found.totalRms, found.peak], [Math.abs(mean), rms, totalRms, peak]);
        near([found.p99, found.p999], [p99, p999]);
        assert.deepEqual(resultantRunning([axis], 10, [mean]), runningRms(axis, 10, mean));
      }),
      { numRuns: 20 },
    );
  });

  it('of still axes has no crest factor', () => {
    assert.equal(resultantLevels([Float64Array.of(1, 1), Float64Array.of(2, 2)]).crest, null);
  });

  it('has as running r.m.s. that of each span, and the largest at its end', () => {
    fc.assert(
      fc.property(axes, (given) => {
        const means = given.map((axis) => levels(axis).mean);
        const { values, maximum, maximumAt } = resultantRunning(given, 50, means);
        const by = (end: number): number =>
          Math.sqrt(
            given.reduce(
              (sum, axis, n) =>
                sum + axis.subarray(end - 49, end + 1).reduce((all, value) => all + (value - means[n]) ** 2, 0) / 50,
              0,
            ),
          );
        near(
          [...values],
          Array.from(values, (_, i) => by(49 + i)),
        );
        near([maximum, by(maximumAt)], [Math.max(...values), maximum]);
      }),
      { numRuns: 20 },
    );
  });

  it('has as running r.m.s. at uneven times the root of its axes’ mean squares', () => {
    fc.assert(
      fc.property(axes, (given) => {
        const times = Float64Array.from({ length: given[0].length }, (_, i) => (i + 0.4 * Math.sin(i)) / rate);
        const means = given.map((axis) => levels(axis).mean);
        const found = resultantRunningAt(given, times, { tau: 0.5, step: 1 / rate, means });
        const each = given.map((axis, n) => runningRmsAt(axis, times, { tau: 0.5, step: 1 / rate, mean: means[n] }));
        assert.equal(found.begin, each[0].begin);
        near(
          [...found.values],
          Array.from(each[0].values, (_, i) => Math.hypot(...each.map(({ values }) => values[i]))),
        );
        assert.equal(found.maximum, Math.max(...found.values));
        assert.equal(found.values[found.maximumAt - found.begin], found.maximum);
      }),
      { numRuns: 20 },
    );
  });

  it('has limits that hold the true density as often as they say, and more often where the axes differ', () => {
    const random = seeded(3);
    const gaussian = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const covered = { alike: 0, independent: 0, of: 0 };
    for (let record = 0; record < 60; record++) {
      const own = [0, 1, 2].map(() => Float64Array.from({ length: 2000 }, gaussian));
      const [one] = own;
      const [alike, independent] = [[one, one, one], own].map(densityOf);
      const { lower, upper } = confidenceFactors(alike.averages, 0.95, chiSquareQuantile);
      // White noise of three axes of variance 1 has a density of 3 x 2 / rate.
      const holds = (level: number): number => Number(level * lower <= 6 / rate && 6 / rate <= level * upper);
      for (let bin = 2; bin < 30; bin += 3) {
        covered.of++;
        covered.alike += holds(alike.density[bin]);
        covered.independent += holds(independent.density[bin]);
      }
    }
    const [alike, independent] = [covered.alike, covered.independent].map((count) => count / covered.of);
    assert.ok(alike > 0.92 && alike < 0.98, `${alike}`);
    assert.ok(independent > 0.98, `${independent}`);
  });

  it('adds lists place by place', () => {
    assert.deepEqual(
      [...summed([Float64Array.of(1, 2), Float64Array.of(10, 20), Float64Array.of(100, 200)])],
      [111, 222],
    );
  });

  it('writes lengths over what it is given, and refuses no axes and axes of different lengths', () => {
    const [x, y] = [Float64Array.of(3, -1), Float64Array.of(4, -2)];
    assert.equal(resultantLength([x, y], [0, 0], x), x);
    assert.deepEqual([...x], [5, Math.sqrt(5)]);
    assert.throws(() => resultantLength([], []), /at least one axis/);
    assert.throws(() => resultantLevels([x, y.subarray(1)]), /different lengths/);
  });
});
