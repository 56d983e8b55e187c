import { strict as assert } from 'node:assert';
import { cosineSum, windowCorrelation, windowResponse, windowShape } from '../../src/signal/windows.ts';
import { noiseBandwidthBins } from './vectors.ts';

/**
 * Heinzel, Ruediger and Schilling 2002, Spectrum and spectral density estimation by the DFT, including a comprehensive
 * list of window functions and some new flat-top windows, table of windows (Max-Planck-Institut für Gravitationsphysik, 15 February
 * 2002); the correlations at 50 and 75 % computed from the paper's definitions. Flatness is the largest deviation of a line's height within half a bin.
 */
const rows: readonly {
  name: string;
  terms: readonly number[];
  bandwidth: number;
  flatness: number;
  at50: number;
  at75: number;
  recommended: number;
}[] = [
  { name: 'Hanning', terms: [0.5, 0.5], bandwidth: 1.5, flatness: 1.4236, at50: 16.67, at75: 65.92, recommended: 50 },
  {
    name: 'Blackman-Harris',
    terms: [0.35875, 0.48829, 0.14128, 0.01168],
    bandwidth: 2.0044,
    flatness: 0.8256,
    at50: 3.76,
    at75: 46,
    recommended: 66.1,
  },
  {
    name: 'HFT70',
    terms: [1, 1.90796, 1.07349, 0.18199],
    bandwidth: 3.4129,
    flatness: 0.0065,
    at50: -3.82,
    at75: 12.24,
    recommended: 72.2,
  },
  {
    name: 'HFT95',
    terms: [1, 1.9383379, 1.3045202, 0.402827, 0.0350665],
    bandwidth: 3.8112,
    flatness: 0.0044,
    at50: -1.42,
    at75: 3.88,
    recommended: 75.6,
  },
  {
    name: 'SFT5M',
    terms: [0.209671, 0.407331, 0.281225, 0.092669, 0.0091036],
    bandwidth: 3.8852,
    flatness: 0.0039,
    at50: -1.08,
    at75: 2.58,
    recommended: 76,
  },
  {
    name: 'flat-top of ISO 18431-2 kind (SRS)',
    terms: [1, 1.93, 1.29, 0.388, 0.028],
    bandwidth: 3.7702,
    flatness: 0.0156,
    at50: -1.4,
    at75: 4.42,
    recommended: 75.4,
  },
];

const length = 1024;

/** Deviation in dB of a line's height within half a bin, the largest. */
function flatness(shape: Float64Array): number {
  let worst = 0;
  for (let i = 0; i <= 100; i++) worst = Math.max(worst, Math.abs(20 * Math.log10(windowResponse(shape, i / 200))));
  return worst;
}

/** Heinzel's amplitude flatness: the least over the greatest of the summed squares' root that overlapping windows lay on a sample. */
function amplitudeFlatness(shape: Float64Array, hop: number): number {
  const sums = Array.from({ length: hop }, (_, n) => {
    let sum = 0;
    for (let at = n; at < shape.length; at += hop) sum += Math.abs(shape[at]);
    return sum;
  });
  return Math.min(...sums) / Math.max(...sums);
}

describe('Heinzel, Ruediger and Schilling 2002', () => {
  for (const { name, terms, bandwidth, at50, at75, ...row } of rows) {
    const shape = cosineSum(terms, length);

    it(`${name}: noise bandwidth ${bandwidth} bins, flatness ${row.flatness} dB`, () => {
      assert.ok(Math.abs(noiseBandwidthBins(shape) - bandwidth) < 0.6e-4, `${noiseBandwidthBins(shape)}`);
      assert.ok(Math.abs(flatness(shape) - row.flatness) < 0.6e-4, `${flatness(shape)}`);
    });

    it(`${name}: correlation ${at50} % at half and ${at75} % at three quarters of overlap`, () => {
      assert.ok(Math.abs(100 * windowCorrelation(shape, length / 2) - at50) < 0.006);
      assert.ok(Math.abs(100 * windowCorrelation(shape, length / 4) - at75) < 0.006);
    });

    it(`${name}: ${row.recommended} % is where flatness exceeds correlation by most`, () => {
      const gain = (overlap: number): number => {
        const hop = Math.round(length * (1 - overlap / 100));
        return amplitudeFlatness(shape, hop) - windowCorrelation(shape, hop);
      };
      let best = 0;
      for (let overlap = 20; overlap < 92; overlap += 0.1) if (gain(overlap) > gain(best)) best = overlap;
      assert.ok(Math.abs(best - row.recommended) < 1.5, `best at ${best} %`);
    });
  }

  it('the flat-top of general numerical libraries has the bandwidth 3.7702 and stays within 0.0156 dB', () => {
    const shape = windowShape('flattop', length);
    assert.ok(Math.abs(noiseBandwidthBins(shape) - 3.7702) < 1e-4);
    assert.ok(flatness(shape) <= 0.0156);
  });
});
