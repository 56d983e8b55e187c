import { strict as assert } from 'node:assert';
import { bestLag } from '../../src/signal/lag.ts';
import { spectrogram } from '../../src/signal/spectrogram.ts';
import { coherenceError, coherenceLimit, transfer, transferError } from '../../src/signal/transfer.ts';
import { welchDensity } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { close, near, noise, record } from '../published/vectors.ts';

const shape = windowShape('hann', 100);

describe('transfer', () => {
  it('of a signal to its multiple is the factor, with no phase, full coherence and no error', () => {
    const input = record(1, 2000);
    const found = transfer([{ input, output: input.map((value) => -2 * value) }], { shape, rate: 350 });
    near(found.h1, new Float64Array(51).fill(2), 1e-12);
    near(found.h2, new Float64Array(51).fill(2), 1e-12);
    near(found.coherence, new Float64Array(51).fill(1), 1e-12);
    near(found.phase.map(Math.abs), new Float64Array(51).fill(Math.PI), 1e-9);
    assert.ok(found.error.every((value) => value < 1e-6));
  });

  it('reads the delay of an output as a falling phase', () => {
    const input = noise(2, 40_000);
    const output = input.map((_, n) => (n >= 2 ? input[n - 2] : 0));
    const found = transfer([{ input, output }], { shape, rate: 100 });
    close(found.phase[10], (-2 * Math.PI * 10 * 2) / 100, 0.01);
  });

  it('of unrelated signals stays below the coherence limit as often as that says', () => {
    const found = transfer([{ input: noise(3, 40_000), output: noise(77, 40_000) }], { shape, rate: 350 });
    const limit = coherenceLimit(found.averages, 0.95);
    const above = found.coherence.slice(1, 50).filter((value) => value > limit).length;
    assert.ok(above <= 7, `${above} of 49 bins above`);
  });

  it('lets H1 and H2 enclose the truth when both sides are noisy', () => {
    const motion = noise(5, 60_000);
    const input = motion.map((value, n) => value + 0.5 * noise5[n]);
    const output = motion.map((value, n) => value + 0.5 * noise6[n]);
    const found = transfer([{ input, output }], { shape, rate: 350 });
    for (let k = 2; k < 49; k++) assert.ok(found.h1[k] < 1 && found.h2[k] > 1);
  });

  it('refuses one segment, of which any two signals would seem coherent, and unequal lengths', () => {
    const input = record(1, 120);
    assert.throws(
      () => transfer([{ input, output: input }], { shape, rate: 350 }),
      /at least two segments of 100 samples, not 1/,
    );
    assert.throws(() => transfer([{ input, output: input.subarray(1) }], { shape, rate: 350 }), /120 and 119 samples/);
  });
});

const noise5 = noise(1005, 60_000);
const noise6 = noise(2006, 60_000);

describe('transferError, coherenceError and coherenceLimit', () => {
  it('give the values of Bendat and Piersol: 3.7 % and 2.1 degrees at coherence 0.9 and 40 averages', () => {
    close(transferError(0.9, 40), 0.0373, 0.002);
    close((transferError(0.9, 40) * 180) / Math.PI, 2.1, 0.02);
    close(transferError(0.5, 40), 0.112, 0.005);
    close(transferError(0.9, 80), 0.026, 0.02);
    close(coherenceError(0.9, 40), 0.02357, 1e-3);
    close(coherenceLimit(40, 0.95), 0.074, 0.01);
    close(coherenceLimit(80, 0.95), 0.037, 0.01);
  });
});

describe('bestLag', () => {
  it('finds how far one record comes after another, either way', () => {
    const long = record(9, 3000);
    for (const delay of [0, 17, -40, 333]) {
      const found = bestLag(long.subarray(500, 2500), long.subarray(500 - delay, 2300 - delay), 400);
      assert.equal(found.samples, delay);
      assert.ok(found.correlation > 0.99);
    }
  });

  it('of unrelated records says that nothing correlates', () => {
    assert.ok(Math.abs(bestLag(noise(1, 5000), noise(4711, 5000), 100).correlation) < 0.1);
  });
});

describe('spectrogram', () => {
  const samples = record(4, 3000);

  it('averages over its columns to the Welch density', () => {
    const found = spectrogram([{ samples, start: 0 }], { shape, rate: 350 });
    const mean = new Float64Array(found.bins);
    found.density.forEach((value, i) => (mean[i % found.bins] += value / found.times.length));
    near(mean, welchDensity([samples], { shape, rate: 350 }).density, 1e-12);
  });

  it('keeps to the clock and lets no column cross a gap', () => {
    const found = spectrogram(
      [
        { samples: samples.subarray(0, 250), start: 0 },
        { samples: samples.subarray(250, 400), start: 60 },
      ],
      { shape, rate: 100 },
    );
    assert.deepEqual([...found.times], [0.5, 1, 1.5, 2, 60.5, 61]);
  });

  it('averages neighbouring segments where more columns would come out than wanted', () => {
    const all = spectrogram([{ samples, start: 0 }], { shape, rate: 350 });
    const few = spectrogram([{ samples, start: 0 }], { shape, rate: 350, columns: 10 });
    assert.equal(few.perColumn, 6);
    assert.equal(few.times.length, 10);
    const first = Float64Array.from({ length: all.bins }, (_, k) =>
      [0, 1, 2, 3, 4, 5].reduce((sum, c) => sum + all.density[c * all.bins + k] / 6, 0),
    );
    near(few.density.subarray(0, all.bins), first, 1e-12);
  });
});
