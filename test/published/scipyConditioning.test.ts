import { integrate } from '../../src/signal/integrate.ts';
import { resampled } from '../../src/signal/resample.ts';
import { runningRms } from '../../src/signal/running.ts';
import { evenlySampled } from '../../src/signal/spline.ts';
import { weighted, weightingResponse, type WeightingName } from '../../src/signal/weighting.ts';
import { near, noise, record, vectors } from './vectors.ts';

interface Case {
  seed: number;
  count: number;
  rate: number;
  values: number[];
}

// Source: numpy and scipy, through vectors that name their versions (scripts/reference/makeVectors.py).
describe('scipy: conditioning', () => {
  for (const { seed, count, up, down, values } of vectors<Case & { up: number; down: number }>('resampling')) {
    it(`${count} samples by ${up}/${down} equal scipy.signal.resample_poly, padded with the mean`, () => {
      near(resampled(record(seed, count), { up, down }), values, 1e-13);
    });
  }

  it('uneven readings become even ones as by scipy.interpolate.CubicSpline with natural ends', () => {
    for (const { seed, count, rate, values } of vectors<Case>('spline')) {
      let time = 0;
      const times = noise(seed + 100, count).map((u) => (time += 0.1 * (1 + 0.8 * u)));
      near(evenlySampled(times, record(seed, count), rate), values, 1e-12, `${count} readings`);
    }
  });

  interface WeightingCase extends Case {
    name: WeightingName;
    frequencies: number[];
    re: number[];
    im: number[];
    weighted: number[];
  }
  for (const { seed, count, rate, name, frequencies, re, im, ...expected } of vectors<WeightingCase>('weighting')) {
    it(`${name} equals scipy.signal.freqs of its polynomials, and ${count} samples numpy's transform times it`, () => {
      const found = frequencies.map((frequency) => weightingResponse(name, frequency));
      near(
        found.flatMap((h) => [h.re, h.im]),
        re.flatMap((value, i) => [value, im[i]]),
        1e-12,
      );
      near(weighted(name, record(seed, count), rate, new Float64Array(count)), expected.weighted, 1e-12);
    });
  }

  it('velocity and displacement equal the bins over (2 pi i f)^n less their lowpass in numpy', () => {
    for (const { seed, count, rate, times, lowCut, values } of vectors<Case & { times: 1 | 2; lowCut: number }>(
      'integration',
    )) {
      near(integrate(record(seed, count), rate, times, lowCut, new Float64Array(count)), values, 1e-12);
    }
  });

  it('the running r.m.s. equals numpy.convolve of the squares', () => {
    for (const { seed, count, length, values } of vectors<Case & { length: number }>('running')) {
      near(runningRms(record(seed, count), length).values, values, 1e-13);
    }
  });
});
