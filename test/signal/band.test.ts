import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { bandMeanSquare, bandRms, totalMeanSquare } from '../../src/signal/band.ts';
import { welchDensity, type Density } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { close, record } from '../published/vectors.ts';

/** A density of our choice, of `segmentLength` samples at `rate`. */
const densityOf = (values: readonly number[], segmentLength: number, rate: number): Density => ({
  density: Float64Array.from(values),
  step: rate / segmentLength,
  segmentLength,
  rate,
  segments: 10,
  averages: 10,
  noiseBandwidth: 1,
});

describe('bandMeanSquare', () => {
  it('adds up over neighbouring bands, wherever they are parted, for odd and even segments', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(64, 75, 350),
        fc.uniqueArray(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 9 }),
        (length, cuts) => {
          const rate = 349.9999994;
          const of = welchDensity([record(4, 2000)], { shape: windowShape('hann', length), rate });
          const edges = [0, ...cuts.map((cut) => (cut * rate) / 2).sort((a, b) => a - b), rate / 2];
          let sum = 0;
          for (let i = 0; i + 1 < edges.length; i++) sum += bandMeanSquare(of, edges[i], edges[i + 1]);
          close(sum, totalMeanSquare(of), 1e-12);
        },
      ),
    );
  });

  it('counts a bin on the edge by the part covered', () => {
    const of = densityOf([0, 1, 2, 4, 8, 16], 10, 10);
    close(bandMeanSquare(of, 1.5, 2.5), 2, 1e-15);
    close(bandMeanSquare(of, 1, 3), 0.5 + 2 + 2, 1e-15);
    close(bandMeanSquare(of, 2.25, 2.35), 0.2, 1e-14);
  });

  it('keeps the whole mean square of the bins at 0 and at half the rate in the half that lies inside', () => {
    const of = densityOf([3, 0, 0, 0, 0, 5], 10, 10);
    close(bandMeanSquare(of, 0, 0.5), 3, 1e-15);
    close(bandMeanSquare(of, 0, 0.25), 1.5, 1e-15);
    close(bandMeanSquare(of, 4.5, 5), 5, 1e-15);
    // An odd segment's last bin lies inside as a whole.
    close(bandMeanSquare(densityOf([0, 0, 0, 0, 7], 9, 9), 3.5, 4.5), 7, 1e-15);
  });

  it('does not flip when the rate is a hair off', () => {
    const samples = record(2, 3000);
    const at = (rate: number): number =>
      bandRms(welchDensity([samples], { shape: windowShape('hann', 700), rate }), 10, 50);
    close(at(349.9999994), at(350), 1e-8);
  });

  it('refuses a band past half the rate, below 0 or with its edges exchanged', () => {
    const of = densityOf([1, 1, 1, 1, 1, 1], 10, 10);
    for (const [low, high] of [
      [0, 5.1],
      [-1, 2],
      [3, 2],
      [NaN, 2],
    ])
      assert.throws(() => bandMeanSquare(of, low, high), RangeError);
    assert.throws(() => bandMeanSquare(of, 0, 6), /half the rate, 5 Hz.*not 0..6 Hz/);
    assert.doesNotThrow(() => bandMeanSquare(of, 0, 5 + 1e-12));
  });
});
