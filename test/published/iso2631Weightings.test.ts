import { strict as assert } from 'node:assert';
import { weightingResponse, type WeightingName } from '../../src/signal/weighting.ts';
import { close, vectors } from './vectors.ts';

/**
 * Frequency weightings x 1000 at the nominal third-octave frequencies.
 *
 * Two tables circulate. ISO 2631-1:1997, tables 3 and 4, evaluates at the nominal frequencies (columns Wk, Wd, Wc,
 * We, Wj here, read in a public-domain copy of the standard's tables); VDI 2057 and ISO 8041-1 at the
 * exact ones, 10^(n/10) Hz (columns Wk exact, Wd exact, computed from the standard's formula). They differ by up
 * to 1.4 %, where the curve is steep.
 *
 * Cells that are wrong in circulating copies, and stand here as the formula and the copy's own decibels have them: Wd at 2 Hz
 * (980 with +1.01 dB; right 890 with -1.01 dB) and Wd at 10 Hz (212 with -13.91 dB; right 202).
 */
const table: readonly (readonly number[])[] = [
  // f, Wk, Wk exact, Wd, Wd exact, Wc, We, Wj
  [0.1, 31.2, 31.21, 62.4, 62.42, 62.4, 62.5, 31],
  [0.125, 48.6, 49.31, 97.3, 98.67, 97.2, 97.5, 48.3],
  [0.16, 79, 77.56, 158, 155.3, 158, 159, 78.5],
  [0.2, 121, 120.7, 243, 242, 243, 245, 120],
  [0.25, 182, 183.2, 365, 368.2, 364, 368, 181],
  [0.315, 263, 264.4, 530, 533, 527, 536, 262],
  [0.4, 352, 350.4, 713, 709.7, 708, 723, 351],
  [0.5, 418, 418.8, 853, 854, 843, 862, 417],
  [0.63, 459, 458.8, 944, 944.3, 929, 939, 458],
  [0.8, 477, 476.7, 992, 991.4, 972, 941, 478],
  [1, 482, 482.5, 1011, 1011, 991, 880, 484],
  [1.25, 484, 484.6, 1008, 1007, 1000, 772, 485],
  [1.6, 494, 493.5, 968, 970.7, 1007, 632, 483],
  [2, 531, 530.8, 890, 891.3, 1012, 512, 482],
  [2.5, 631, 633.5, 776, 773.3, 1017, 409, 489],
  [3.15, 804, 807.1, 642, 639.8, 1022, 323, 524],
  [4, 967, 964.8, 512, 514.3, 1024, 253, 628],
  [5, 1039, 1039, 409, 408.1, 1013, 202, 793],
  [6.3, 1054, 1054, 323, 322.6, 974, 160, 946],
  [8, 1036, 1037, 253, 255, 891, 125, 1017],
  [10, 988, 988.4, 202, 201.7, 776, 100, 1030],
  [12.5, 902, 898.9, 161, 159.7, 647, 80.1, 1026],
  [16, 768, 774.3, 125, 126.6, 512, 62.5, 1018],
  [20, 636, 637.3, 100, 100.4, 409, 50, 1012],
  [25, 513, 510.3, 80, 79.58, 325, 39.9, 1007],
  [31.5, 405, 403.1, 63.2, 62.99, 256, 31.6, 1001],
  [40, 314, 316, 49.4, 49.65, 199, 24.7, 991],
  [50, 246, 245.1, 38.8, 38.72, 156, 19.4, 972],
  [63, 186, 185.7, 29.5, 29.46, 118, 14.8, 931],
  [80, 132, 133.9, 21.1, 21.3, 84.4, 10.5, 843],
  [100, 88.7, 88.73, 14.1, 14.14, 56.7, 7.07, 708],
  [125, 54, 53.11, 8.63, 8.478, 34.5, 4.31, 539],
  [160, 28.5, 29.22, 4.55, 4.668, 18.2, 2.27, 364],
  [200, 15.2, 15.28, 2.43, 2.442, 9.71, 1.21, 243],
  [250, 7.9, 7.795, 1.26, 1.246, 5.06, 0.63, 158],
  [315, 3.98, 3.935, 0.64, 0.6293, 2.55, 0.32, 100],
  [400, 1.95, 1.978, 0.31, 0.3164, 1.25, 0.16, 62.4],
];

function weightingFactor(name: WeightingName, frequency: number): number {
  const { re, im } = weightingResponse(name, frequency);
  return Math.hypot(re, im);
}

const exactFrequency = (nominal: number): number => 10 ** (Math.round(10 * Math.log10(nominal)) / 10);

describe('ISO 2631-1:1997 frequency weightings', () => {
  const nominal: [WeightingName, number][] = [
    ['wk', 1],
    ['wd', 3],
    ['wc', 5],
    ['we', 6],
    ['wj', 7],
  ];
  for (const [name, column] of nominal) {
    it(`${name} agrees with the table at nominal frequencies within 0.5 % from 0.5 to 80 Hz and 1.5 % from 0.1 to 400 Hz`, () => {
      for (const row of table) {
        const [frequency, value] = [row[0], row[column] / 1000];
        const decimals = String(row[column]).split('.')[1]?.length ?? 0;
        const rounding = (0.5 * 10 ** -decimals) / row[column];
        close(
          weightingFactor(name, frequency),
          value,
          (frequency >= 0.5 && frequency <= 80 ? 0.005 : 0.015) + rounding,
          `${name} at ${frequency} Hz`,
        );
      }
    });
  }

  const exact: [WeightingName, number][] = [
    ['wk', 2],
    ['wd', 4],
  ];
  for (const [name, column] of exact) {
    it(`${name} agrees with the table at exact frequencies within 0.1 %`, () => {
      for (const row of table)
        close(weightingFactor(name, exactFrequency(row[0])), row[column] / 1000, 0.001, `${name} at ${row[0]} Hz`);
    });
  }

  it('the two conventions differ by more than 1 % somewhere, so that a table must say which it is', () => {
    const differences = table.map(([frequency]) =>
      Math.abs(weightingFactor('wd', frequency) / weightingFactor('wd', exactFrequency(frequency)) - 1),
    );
    assert.ok(Math.max(...differences) > 0.01);
  });

  it('the copies with Wd 980 at 2 Hz and 212 at 10 Hz are wrong by the formula', () => {
    assert.ok(weightingFactor('wd', 2) < 0.9);
    close(20 * Math.log10(weightingFactor('wd', 2)), -1.01, 0.02);
    close(20 * Math.log10(weightingFactor('wd', 10)), -13.91, 0.002);
  });

  it('wf agrees with its values at exact frequencies, of which 0.02 to 4 Hz matter, within 0.5 %', () => {
    // ISO 2631-1:1997, table 3, at exact frequencies; computed from the formula, agreeing with the printed column.
    const values: [number, number][] = [
      [-17, 24.1],
      [-16, 38.0],
      [-15, 60.2],
      [-14, 96.2],
      [-13, 157.5],
      [-12, 267.5],
      [-11, 453.7],
      [-10, 695.1],
      [-9, 900],
      [-8, 1004],
      [-7, 992.8],
      [-6, 850.1],
      [-5, 614.9],
      [-4, 388.4],
      [-3, 222.5],
      [-2, 115.7],
      [-1, 54.3],
      [0, 23.5],
    ];
    for (const [tenths, value] of values)
      close(weightingFactor('wf', 10 ** (tenths / 10)), value / 1000, 0.005, `10^${tenths / 10} Hz`);
  });
});

describe('ISO 5349-1:2001 hand-arm weighting', () => {
  it('wh agrees with the table at exact mid-bands within its rounding', () => {
    // ISO 5349-1:2001, table A.2 (values as a public table gives them), third octaves from 4 to 2000 Hz.
    const values = [
      0.375, 0.545, 0.727, 0.873, 0.951, 0.958, 0.896, 0.782, 0.647, 0.519, 0.411, 0.324, 0.256, 0.202, 0.16, 0.127,
      0.101, 0.0799, 0.0634, 0.0503, 0.0398, 0.0314, 0.0245, 0.0186, 0.0135, 0.00894, 0.00536, 0.00295,
    ];
    values.forEach((value, i) => {
      const digit = 10 ** (Math.floor(Math.log10(value)) - 2);
      assert.ok(Math.abs(weightingFactor('wh', 10 ** (0.6 + i / 10)) - value) < 0.8 * digit, `band ${i}`);
    });
  });
});

describe('ISO 2631-2:2003 weighting of people in buildings', () => {
  it('wm agrees with the table at exact mid-bands within its rounding', () => {
    // ISO 2631-2:2003, table A.1, third octaves from 0.8 to 80 Hz (from memory; each agrees with the formula of annex A).
    const values = [
      0.7, 0.833, 0.907, 0.934, 0.932, 0.91, 0.872, 0.818, 0.75, 0.669, 0.582, 0.494, 0.411, 0.337, 0.274, 0.22, 0.176,
      0.14, 0.109, 0.0834, 0.0604,
    ];
    values.forEach((value, i) => close(weightingFactor('wm', 10 ** (i / 10 - 0.1)), value, 0.004, `band ${i}`));
  });
});

describe('ISO 8041-1 weightings at the reference frequency of 100 rad/s', () => {
  it('are what makers of meters state', () => {
    // ISO 8041:2005, table 1 as public data sheets give it.
    const values: [WeightingName, number][] = [
      ['wb', 0.8126],
      ['wc', 0.5145],
      ['wd', 0.1261],
      ['we', 0.06287],
      ['wj', 1.019],
      ['wh', 0.202],
    ];
    for (const [name, value] of values) {
      const frequency = name === 'wh' ? 500 / (2 * Math.PI) : 100 / (2 * Math.PI);
      close(weightingFactor(name, frequency), value, 0.0005, name);
    }
  });
});

describe('ISO 2631-4:2001 weighting of passengers of a train', () => {
  it('wb agrees with a general-purpose library on the parameters of the standard', () => {
    // scripts/reference/makeVectors.py, `weightings`: scipy.signal.freqs of the transfer function of ISO 8041:2005, table 3.
    for (const { name, frequency, factor } of vectors<{ name: WeightingName; frequency: number; factor: number }>(
      'weightings',
    ))
      close(weightingFactor(name, frequency), factor, 1e-12, `${name} at ${frequency} Hz`);
  });

  it('wb follows the straight lines of BS 6841:1987 within 3 dB at the corners and 1.5 dB between them', () => {
    // BS 6841:1987, table 2 (from memory): 0.4 from 0.5 to 2 Hz, f/5 to 5 Hz, 1 to 16 Hz, 16/f to 80 Hz.
    const line = (f: number): number => (f < 2 ? 0.4 : f < 5 ? f / 5 : f < 16 ? 1 : 16 / f);
    for (const [frequency] of table.filter(([f]) => f >= 0.8 && f <= 63)) {
      const corner = [2, 5, 16].some((at) => Math.abs(Math.log2(frequency / at)) < 0.7);
      const off = 20 * Math.log10(weightingFactor('wb', frequency) / line(frequency));
      assert.ok(Math.abs(off) < (corner ? 3 : 1.5), `${off} dB at ${frequency} Hz`);
    }
  });
});
