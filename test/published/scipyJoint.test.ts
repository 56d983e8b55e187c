import { spectrogram } from '../../src/signal/spectrogram.ts';
import { transfer } from '../../src/signal/transfer.ts';
import { windowShape, type WindowName } from '../../src/signal/windows.ts';
import { near, noise, record, vectors } from './vectors.ts';

// Source: scipy, through vectors that name its version (scripts/reference/makeVectors.py).
describe('scipy: spectrogram and transfer', () => {
  interface SpectrogramCase {
    seed: number;
    count: number;
    window: WindowName;
    segment: number;
    overlap: number;
    times: number[];
    density: number[];
  }
  for (const { seed, count, window, segment, overlap, times, density } of vectors<SpectrogramCase>('spectrograms')) {
    it(`a spectrogram of ${window} ${segment} equals scipy.signal.spectrogram`, () => {
      const found = spectrogram([{ samples: record(seed, count), start: 0 }], {
        shape: windowShape(window, segment),
        rate: 350,
        overlap,
      });
      near(found.times, times, 1e-14, 'times');
      near(found.density, density, 1e-13, 'density');
    });
  }

  interface TransferCase {
    seed: number;
    count: number;
    segment: number;
    h1: number[];
    h2: number[];
    phase: number[];
    coherence: number[];
  }
  for (const { seed, count, segment, h1, h2, phase, coherence } of vectors<TransferCase>('transfers')) {
    it(`a transfer of segments of ${segment} equals scipy.signal.csd, welch and coherence`, () => {
      const input = record(seed, count);
      const output = disturbed(input, noise(seed + 50, count));
      const found = transfer([{ input, output }], { shape: windowShape('hann', segment), rate: 350 });
      near(found.h1, h1, 1e-11, 'h1');
      near(found.h2, h2, 1e-11, 'h2');
      near(found.phase, phase, 1e-11, 'phase');
      near(found.coherence, coherence, 1e-11, 'coherence');
    });
  }
});

/** y[n] = 0.5 x[n] + 0.3 x[n-1] + 0.6 y[n-1] plus a fifth of the disturbance. */
function disturbed(input: Float64Array, disturbance: Float64Array): Float64Array {
  let y = 0;
  const clean = input.map((x, n) => (y = 0.5 * x + 0.3 * (n > 0 ? input[n - 1] : 0) + 0.6 * y));
  return clean.map((value, n) => value + 0.2 * disturbance[n]);
}
