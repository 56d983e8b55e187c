import { strict as assert } from 'node:assert';
import { findPeaks, type Peak } from '../../src/signal/peaks.ts';
import { welchDensity } from '../../src/signal/welch.ts';
import { halfPowerWidthBins, windowShape } from '../../src/signal/windows.ts';
import { close, noise } from '../published/vectors.ts';

const rate = 350;
const shape = windowShape('hann', 700);

/** Quantile of chi-square by Wilson and Hilferty 1931, good to a part in a thousand at these degrees of freedom. */
function quantile(p: number, dof: number): number {
  // Normal quantile by bisection on a series-free approximation of its distribution (Abramowitz and Stegun 26.2.17).
  let [low, high] = [-9, 9];
  for (let i = 0; i < 60; i++) {
    const z = (low + high) / 2;
    const t = 1 / (1 + 0.2316419 * Math.abs(z));
    const tail =
      (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
      t *
      (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
    if ((z < 0 ? tail : 1 - tail) < p) low = z;
    else high = z;
  }
  const k = 2 / (9 * dof);
  return dof * (1 - k + low * Math.sqrt(k)) ** 3;
}

const gaussian = (seed: number, count: number): Float64Array => {
  const u = noise(seed, 12 * count);
  return Float64Array.from({ length: count }, (_, n) =>
    u.subarray(12 * n, 12 * n + 12).reduce((sum, value) => sum + value, 0),
  );
};

function peaksOf(samples: Float64Array, count?: number): Peak[] {
  const of = welchDensity([samples], { shape, rate });
  return findPeaks(of, {
    low: 2,
    high: 150,
    confidence: 0.95,
    quantile,
    windowWidth: halfPowerWidthBins(shape),
    ...(count === undefined ? {} : { count }),
  });
}

/** White noise through an oscillator of 25 Hz and the given damping (impulse-invariant). */
function resonance(samples: Float64Array, zeta: number): Float64Array {
  const omega = (2 * Math.PI * 25) / rate;
  const decay = Math.exp(-zeta * omega);
  const [a1, a2] = [2 * decay * Math.cos(omega * Math.sqrt(1 - zeta * zeta)), -decay * decay];
  let [y1, y2] = [0, 0];
  return samples.map((x) => {
    const y = x + a1 * y1 + a2 * y2;
    y2 = y1;
    y1 = y;
    return y;
  });
}

/** Peaks of a density of 1 with these bins in it, one Hz apart, averaged so often that every rise is real. */
function peaksAmong(
  bins: Readonly<Record<number, number>>,
  windowWidth = 1.44,
  [low, high]: readonly [number, number] = [0, 100],
): Peak[] {
  const density = new Float64Array(101).fill(1);
  for (const [bin, value] of Object.entries(bins)) density[Number(bin)] = value;
  const of = { density, step: 1, segmentLength: 200, rate: 200, segments: 1e6, averages: 1e6, noiseBandwidth: 1.5 };
  return findPeaks(of, { low, high, confidence: 0.95, quantile, windowWidth });
}

describe('findPeaks', () => {
  it('states the prominence over the higher of the two dips, in dB', () => {
    const [high, low] = peaksAmong({ 40: 1000, 41: 10, 42: 100 });
    close(high.prominence, 30, 1e-12);
    close(low.prominence, 10, 1e-12);
    close(peaksAmong({ 40: 10, 41: 100 })[0].prominence, 20, 1e-12);
  });

  it('gives a top of equal bins once, between two of them', () => {
    const found = peaksAmong({ 49: 100, 50: 100 });
    assert.deepEqual(
      found.map(({ frequency }) => frequency),
      [49.5],
    );
    assert.equal(peaksAmong({ 49: 100, 50: 100, 51: 100 }).length, 1);
  });

  it('places a peak at the top of the parabola through three logarithms, and its half-power points on chords', () => {
    const bell = (k: number): number => 2 ** (20 - (k - 50.25) ** 2);
    const [peak] = peaksAmong(Object.fromEntries([47, 48, 49, 50, 51, 52, 53].map((k) => [k, bell(k)])), 0.1);
    close(peak.frequency, 50.25, 1e-12);
    // The logarithms fall, from the bin at 50, by 1.5 to the bin at 49 and by 0.5, then 3 to those above.
    close(peak.half!.low, 50 - 1 / 1.5, 1e-12);
    close(peak.half!.high, 51 + 0.5 / 2.5, 1e-12);
    close(peak.width!, Math.sqrt((peak.half!.high - peak.half!.low) ** 2 - 0.1 ** 2), 1e-12);
  });

  it('stands at its bin where the density beside it is nothing, which has no logarithm', () => {
    for (const beside of [49, 51]) {
      const [peak] = peaksAmong({ 50: 100, [beside]: 0 });
      assert.deepEqual([peak.bin, peak.frequency], [50, 50]);
    }
  });

  it('has no half-power points where a higher peak or the end of the range comes first', () => {
    const [high, low] = peaksAmong({ 60: 100, 61: 1000, 62: 60, 63: 70, 64: 65, 65: 69 });
    assert.ok(high.half !== null);
    assert.deepEqual([low.bin, low.half, low.width, low.line, low.damping], [63, null, null, false, null]);
    assert.equal(peaksAmong({ 97: 50, 98: 90, 99: 100, 100: 99 })[0].half, null);
    assert.equal(peaksAmong({ 1: 99, 2: 100, 3: 90 })[0].half, null);
  });

  it('lies within the range with a bin on either side', () => {
    const at50 = (low: number, high: number): number => peaksAmong({ 50: 100 }, 1.44, [low, high]).length;
    assert.deepEqual([at50(49, 51), at50(49.1, 60), at50(50, 60), at50(40, 50.9), at50(40, 51)], [1, 0, 0, 0, 1]);
    assert.equal(peaksAmong({ 1: 100 }).length, 0);
    assert.equal(peaksAmong({ 99: 100 }, 1.44, [90, 1000]).length, 1);
  });

  it('finds none in noise: at most one of twenty records has an accident at 95 %', () => {
    let withPeaks = 0;
    for (let seed = 1; seed <= 20; seed++) if (peaksOf(gaussian(seed, 15_000)).length > 0) withPeaks++;
    assert.ok(withPeaks <= 1, `${withPeaks} of 20`);
  });

  it('finds lines in noise between the bins, and says that they are lines', () => {
    const samples = gaussian(7, 29_750).map(
      (value, n) => value + Math.sin((2 * Math.PI * 17.2 * n) / rate) + 0.5 * Math.sin((2 * Math.PI * 60.1 * n) / rate),
    );
    const found = peaksOf(samples);
    assert.equal(found.length, 2);
    close(found[0].frequency, 17.2, 0.004);
    close(found[1].frequency, 60.1, 0.002);
    for (const { line, width, damping } of found) assert.deepEqual([line, width, damping], [true, null, null]);
  });

  it('reads the damping of a resonance from its half-power width', () => {
    const [peak, ...others] = peaksOf(resonance(gaussian(3, 300_000), 0.05));
    assert.equal(others.length, 0);
    close(peak.frequency, 25, 0.03);
    close(peak.damping!, 0.05, 0.1);
    assert.ok(!peak.line && peak.half!.low < 24 && peak.half!.high > 26);
  });

  it('gives no damping where the width has too few bins for it', () => {
    const [peak] = peaksOf(resonance(gaussian(3, 300_000), 0.012));
    assert.ok(peak.width! < 5 * 0.5);
    assert.equal(peak.damping, null);
  });

  it('gives the highest first, no more than asked for', () => {
    const samples = gaussian(7, 29_750).map(
      (value, n) =>
        value + [20, 40, 60].reduce((sum, f, i) => sum + (1 + i) * Math.sin((2 * Math.PI * f * n) / rate), 0),
    );
    assert.deepEqual(
      peaksOf(samples, 2).map(({ frequency }) => Math.round(frequency)),
      [60, 40],
    );
  });

  it('finds nothing in a range too narrow to hold a peak', () => {
    const of = welchDensity([gaussian(1, 3000)], { shape, rate });
    assert.deepEqual(findPeaks(of, { low: 10, high: 10.4, confidence: 0.95, quantile, windowWidth: 1.44 }), []);
  });
});
