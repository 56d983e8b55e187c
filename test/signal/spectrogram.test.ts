import { strict as assert } from 'node:assert';
import { spectrogram } from '../../src/signal/spectrogram.ts';
import { welchDensity } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { near, record } from '../published/vectors.ts';

const shape = windowShape('hann', 100);

describe('spectrogram', () => {
  const samples = record(4, 3000);

  for (const length of [16, 100]) {
    it(`averages over its columns to the Welch density, single or gathered, of segments of ${length} samples`, () => {
      const options = { shape: windowShape('hann', length), rate: 350 };
      const { density } = welchDensity([samples], options);
      for (const columns of [Infinity, 1]) {
        const found = spectrogram([{ samples, start: 0 }], { ...options, columns });
        const mean = new Float64Array(found.bins);
        found.density.forEach((value, i) => (mean[i % found.bins] += value / found.times.length));
        near(mean, density, 1e-12);
      }
    });
  }

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
