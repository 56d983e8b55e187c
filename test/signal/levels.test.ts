import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { levels, moments, vibrationDose } from '../../src/signal/levels.ts';
import { close, noise, record } from '../published/vectors.ts';

const sine = (count: number, period: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => Math.sin((2 * Math.PI * n) / period));

describe('levels', () => {
  it('of whole periods of a sine: rms 1/sqrt 2, crest sqrt 2, kurtosis 1.5, no skewness', () => {
    const found = levels(sine(1000, 100));
    close(found.rms, Math.SQRT1_2, 1e-12);
    close(found.crest!, Math.SQRT2, 1e-12);
    close(found.kurtosis!, 1.5, 1e-12);
    assert.ok(Math.abs(found.skewness!) < 1e-12);
  });

  it('of a square wave: kurtosis 1, crest 1', () => {
    const found = levels(Float64Array.from({ length: 100 }, (_, n) => (n % 10 < 5 ? -2 : 2)));
    close(found.kurtosis!, 1, 1e-14);
    close(found.crest!, 1, 1e-14);
  });

  it('keep gravity out of the rms and show it in the total rms: a drop of 15 % of 0.30 g is one of 1.15 % with 1 g in it', () => {
    const of = (amplitude: number): number =>
      levels(sine(1000, 100).map((value) => 1 + amplitude * Math.SQRT2 * value)).totalRms;
    close(of(0.3), 1.044, 1e-4);
    close(of(0.255) / of(0.3) - 1, -0.0115, 0.01);
    close(levels(sine(1000, 100).map((value) => 1 + 0.3 * Math.SQRT2 * value)).rms, 0.3, 1e-12);
  });

  it('do not lose digits beside a large offset', () => {
    const samples = record(1, 10_000, 0);
    const far = levels(samples.map((value) => value + 2 ** 20));
    const here = levels(samples);
    close(far.rms, here.rms, 1e-9);
    close(far.kurtosis!, here.kurtosis!, 1e-8);
  });

  it('have exact central moments where the sum that gives the mean can no longer be exact', () => {
    const small = noise(2, 2000).map((value) => Math.round(10 * value) + (value > 0.4 ? 20 : 0));
    const here = moments(small);
    const far = moments(small.map((value) => value + 2 ** 51));
    for (const power of ['m2', 'm3', 'm4'] as const) close(far[power], here[power], 1e-12, power);
  });

  it('of a constant signal have no crest, kurtosis or skewness, rather than a false one', () => {
    const found = levels(new Float64Array(1000).fill(0.1));
    assert.deepEqual([found.mean, found.rms, found.crest, found.kurtosis, found.skewness], [0.1, 0, null, null, null]);
  });

  it('scale with the signal, shift with its offset and do not mind its order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 2, maxLength: 60 }),
        (values) => {
          const here = levels(Float64Array.from(values));
          const doubled = levels(Float64Array.from(values, (value) => 2 * value).reverse());
          const tiny = 1e-12;
          assert.ok(Math.abs(doubled.rms - 2 * here.rms) <= tiny * (1 + here.rms));
          assert.ok(Math.abs(doubled.peakToPeak - 2 * here.peakToPeak) <= tiny);
          assert.ok(here.peak >= here.rms * (1 - tiny) && here.p999 >= here.p99);
        },
      ),
    );
  });

  it('refuse no samples, and name the sample that is no number', () => {
    assert.throws(() => levels(new Float64Array(0)), /at least one/);
    assert.throws(() => levels(Float64Array.of(1, 2, NaN, 4)), /sample 3 of 4/);
    assert.throws(() => levels(Float64Array.of(1, Infinity)), /sample 2 of 2/);
  });
});

describe('vibrationDose', () => {
  it('of a sine of 1 m/s^2 over 10 s is (10 x 3/8)^(1/4)', () => {
    close(vibrationDose(moments(sine(10_000, 100)), 1000, 1), 1.3915788418568703, 1e-12);
  });

  it('takes the factor to m/s^2', () => {
    close(vibrationDose(moments(sine(10_000, 100)), 1000, 9.80665), 9.80665 * 1.3915788418568703, 1e-12);
  });
});
