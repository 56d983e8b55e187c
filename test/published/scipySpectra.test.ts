import { strict as assert } from 'node:assert';
import { bandMeanSquare } from '../../src/signal/band.ts';
import { confidenceFactors, effectiveAverages } from '../../src/signal/confidence.ts';
import { removeLine } from '../../src/signal/detrend.ts';
import { realFft } from '../../src/signal/fft.ts';
import { levels, moments, vibrationDose, type Levels } from '../../src/signal/levels.ts';
import { peakAmplitude, welchDensity } from '../../src/signal/welch.ts';
import { windowShape, type WindowName } from '../../src/signal/windows.ts';
import { close, near, record, vectors } from './vectors.ts';

// Source: numpy and scipy, through vectors that name their versions (scripts/reference/makeVectors.py).
describe('scipy: spectra and levels', () => {
  for (const { seed, count, re, im } of vectors<{ seed: number; count: number; re: number[]; im: number[] }>('fft')) {
    it(`a transform of ${count} real samples equals numpy.fft.rfft`, () => {
      const plan = realFft(count);
      const foundRe = new Float64Array(plan.bins);
      const foundIm = new Float64Array(plan.bins);
      plan.forward(record(seed, count), foundRe, foundIm);
      near([...foundRe, ...foundIm], [...re, ...im], 2e-15);
    });
  }

  it('windows equal scipy.signal.get_window', () => {
    for (const { name, length, shape } of vectors<{ name: WindowName; length: number; shape: number[] }>('windows')) {
      near(windowShape(name, length), shape, 1e-15, `${name} ${length}`);
    }
  });

  interface WelchCase {
    seed: number;
    lengths: number[];
    rate: number;
    window: WindowName;
    segment: number;
    overlap: number;
    segments: number;
    density: number[];
    spectrum: number[];
  }
  for (const { seed, lengths, rate, window, segment, overlap, ...expected } of vectors<WelchCase>('welch')) {
    it(`Welch with ${window} ${segment}, overlap ${overlap}, of stretches ${lengths.join(' + ')} equals scipy.signal.welch`, () => {
      const samples = record(
        seed,
        lengths.reduce((sum, length) => sum + length),
      );
      let start = 0;
      const stretches = lengths.map((length) => samples.subarray(start, (start += length)));
      const found = welchDensity(stretches, { shape: windowShape(window, segment), rate, overlap });
      assert.equal(found.segments, expected.segments);
      near(found.density, expected.density, 1e-13, 'density');
      const even = segment % 2 === 0;
      const heights = expected.spectrum.map((power, k) =>
        Math.sqrt(k === 0 || (even && k === segment / 2) ? power : 2 * power),
      );
      // With a rectangular window the first bin is what rounding leaves of the removed mean; its root is not comparable.
      near(peakAmplitude(found).subarray(1), heights.slice(1), 1e-13, 'amplitude');
    });
  }

  interface BandCase {
    seed: number;
    count: number;
    rate: number;
    segment: number;
    bands: [number, number][];
    squares: number[];
  }
  for (const { seed, count, rate, segment, bands, squares } of vectors<BandCase>('band')) {
    it(`bands of a density of ${segment} samples equal the interpolated running integral`, () => {
      const of = welchDensity([record(seed, count)], { shape: windowShape('hann', segment), rate });
      near(
        bands.map(([low, high]) => bandMeanSquare(of, low, high)),
        squares,
        1e-13,
      );
    });
  }

  type LevelCase = Levels & { seed: number; offset: number; dose350: number };
  for (const { seed, count, offset, dose350, ...expected } of vectors<LevelCase>('levels')) {
    it(`levels of ${count} samples about ${offset} equal numpy and scipy.stats`, () => {
      const samples = record(seed, count, offset);
      const found: Omit<Levels, 'count'> = levels(samples);
      for (const [name, value] of Object.entries(expected) as [keyof typeof found, number | null][]) {
        if (value === null) assert.equal(found[name], null, name);
        else close(found[name]!, value, 1e-11, name);
      }
      close(vibrationDose(moments(samples), 350, 9.80665), dose350, 1e-12, 'dose');
    });
  }

  it('a line is removed as scipy.signal.detrend removes it', () => {
    for (const { seed, count, linear } of vectors<{ seed: number; count: number; linear: number[] }>('detrend')) {
      const samples = record(seed, count).map((value, i) => value + 0.01 * i);
      removeLine(samples, samples, [{ from: 0, to: count, start: 0 }], 350);
      if (count === 2) assert.ok(Math.max(...samples.map(Math.abs)) < 1e-15);
      else near(samples, linear, 1e-13);
    }
  });

  interface ConfidenceCase {
    window: WindowName;
    length: number;
    hop: number;
    segments: number;
    averages: number;
    factors: Record<string, [number, number]>;
  }
  it('effective averages equal the double sum over pairs of segments, and the factors follow scipy.stats.chi2', () => {
    for (const { window, length, hop, segments, averages, factors } of vectors<ConfidenceCase>('confidence')) {
      const found = effectiveAverages(windowShape(window, length), hop, [segments]);
      close(found, averages, 1e-13, window);
      for (const [level, [lower, upper]] of Object.entries(factors)) {
        const dof = 2 * averages;
        const tail = (1 - Number(level)) / 2;
        const quantile = (p: number): number =>
          Math.abs(p - tail) < 1e-9 ? dof / upper : Math.abs(p + tail - 1) < 1e-9 ? dof / lower : NaN;
        const limits = confidenceFactors(found, Number(level), quantile);
        close(limits.lower, lower, 1e-12);
        close(limits.upper, upper, 1e-12);
      }
    }
  });
});
