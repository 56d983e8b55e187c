import { butterworth, type FilterKind, type Section } from '../../src/signal/butterworth.ts';
import { zeroPhase } from '../../src/signal/filter.ts';
import { near, record, vectors } from './vectors.ts';

interface FilterCase {
  seed: number;
  kind: FilterKind;
  order: number;
  corners: number[];
  rate: number;
  sos: number[][];
  count: number;
  filtered: number[];
}

// Source: scipy, through vectors that name its version (scripts/reference/makeVectors.py).
describe('scipy: filters', () => {
  for (const { seed, kind, order, corners, rate, sos, count, filtered } of vectors<FilterCase>('filters')) {
    const title = `${kind} ${corners.join('..')} Hz of order ${order} at ${rate} Hz`;

    it(`${title}: sections equal scipy.signal.butter`, () => {
      const found = butterworth(kind, order, corners, rate);
      sos.forEach((row, s) => {
        const { b0, b1, b2, a1, a2 } = found[s];
        near([b0, b1, b2, 1, a1, a2], row, 2e-14, `section ${s + 1}`);
      });
    });

    it(`${title}: scipy's own sections filter as scipy.signal.sosfiltfilt does, but for the rounding of the starting state`, () => {
      const sections = sos.map(([b0, b1, b2, , a1, a2]): Section => ({ b0, b1, b2, a1, a2 }));
      const samples = record(seed, count);
      near(zeroPhase(sections, samples, samples), filtered, 5e-14);
    });

    it(`${title}: filters as scipy does`, () => {
      const samples = record(seed, count);
      near(zeroPhase(butterworth(kind, order, corners, rate), samples, new Float64Array(count)), filtered, 1e-10);
    });
  }
});
