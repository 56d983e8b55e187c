import { strict as assert } from 'node:assert';
import {
  halfPowerWidthBins,
  windowCorrelation,
  windowResponse,
  windowShape,
  type WindowName,
} from '../../src/signal/windows.ts';
import { noiseBandwidthBins } from './vectors.ts';

/**
 * Harris 1978, On the use of windows for harmonic analysis with the discrete Fourier transform, Proc. IEEE 66(1),
 * table 1. Printed values that the window's own definition does not give are listed apart.
 */
interface Row {
  readonly name: WindowName;
  readonly gain: number;
  readonly bandwidth: number;
  readonly width: number;
  readonly scalloping: number;
  /** Worst-case processing loss, scalloping plus 10 lg of the noise bandwidth, dB. */
  readonly worst: number;
  /** Overlap correlation in percent at 75 % and 50 %. */
  readonly at75: number;
  readonly at50: number;
}

const rows: readonly Row[] = [
  { name: 'rectangular', gain: 1, bandwidth: 1, width: 0.89, scalloping: 3.92, worst: 3.92, at75: 75, at50: 50 },
  { name: 'hann', gain: 0.5, bandwidth: 1.5, width: 1.44, scalloping: 1.42, worst: 3.18, at75: 65.9, at50: 16.7 },
  { name: 'hamming', gain: 0.54, bandwidth: 1.36, width: 1.3, scalloping: 1.78, worst: 3.1, at75: 70.7, at50: 23.5 },
  { name: 'blackman', gain: 0.42, bandwidth: 1.73, width: 1.68, scalloping: 1.1, worst: 3.47, at75: 56.7, at50: 9 },
  { name: 'blackman-harris', gain: 0.36, bandwidth: 2, width: 1.9, scalloping: 0.83, worst: 3.85, at75: 46, at50: 3.8 },
];

/** What the definition gives where the printed table differs in its last digits. */
const misprints: readonly { readonly name: WindowName; readonly figure: keyof Row; readonly right: number }[] = [
  { name: 'hamming', figure: 'scalloping', right: 1.75 },
  { name: 'hamming', figure: 'at50', right: 23.4 },
  { name: 'blackman', figure: 'width', right: 1.64 },
];

describe('Harris 1978, table 1', () => {
  for (const row of rows) {
    const shape = windowShape(row.name, 1024);
    const scalloping = -20 * Math.log10(windowResponse(shape, 0.5));
    const found = {
      gain: shape.reduce((sum, value) => sum + value, 0) / shape.length,
      bandwidth: noiseBandwidthBins(shape),
      width: halfPowerWidthBins(shape),
      scalloping,
      worst: scalloping + 10 * Math.log10(noiseBandwidthBins(shape)),
      at75: 100 * windowCorrelation(shape, 256),
      at50: 100 * windowCorrelation(shape, 512),
    };
    for (const figure of Object.keys(found) as (keyof typeof found)[]) {
      it(`${row.name}: ${figure} ${row[figure]}`, () => {
        const wrong = misprints.find(({ name, figure: at }) => name === row.name && at === figure);
        const expected = wrong?.right ?? row[figure];
        const lastDigit = figure.startsWith('at') ? 0.1 : 0.01;
        assert.ok(
          Math.abs(found[figure] - expected) <= 0.55 * lastDigit,
          `found ${found[figure]}, expected ${expected}`,
        );
        if (wrong !== undefined)
          assert.ok(Math.abs(found[figure] - row[figure]) > 0.55 * lastDigit, 'the printed value is no longer wrong');
      });
    }
  }
});
