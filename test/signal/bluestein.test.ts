import { strict as assert } from 'node:assert';
import { convolutionLength, makeConvolution, transformColumns } from '../../src/signal/bluestein.ts';
import { near, noise } from '../published/vectors.ts';
import { directSum } from './directSum.ts';

describe('convolutionLength', () => {
  it('is the smallest multiple of 16 that is long enough and has no prime factor above 3', () => {
    const serves = (size: number, points: number): boolean => {
      let rest = size / 16;
      for (const prime of [2, 3]) while (rest % prime === 0) rest /= prime;
      return rest === 1 && size >= 2 * points - 1;
    };
    for (let points = 1; points < 700; points++) {
      let expected = 16;
      while (!serves(expected, points)) expected++;
      assert.equal(convolutionLength(points), expected, `${points} points`);
    }
  });

  it('is less than four times the points that have no pass of their own, as the compiled loop takes for granted', () => {
    for (let points = 44; points < 5000; points++)
      assert.ok(convolutionLength(points) < 4 * points && convolutionLength(points) >= 2 * points, `${points} points`);
  });
});

describe('transformColumns', () => {
  it('transforms each column by its defining sum and leaves the scratch of no account', () => {
    for (const [points, columns] of [
      [9, 1],
      [47, 4],
      [233, 3],
    ]) {
      const of = makeConvolution(points);
      const [re, im] = [noise(points, points * columns), noise(columns, points * columns)];
      const column = (all: Float64Array, at: number): Float64Array =>
        Float64Array.from({ length: points }, (_, n) => all[n * columns + at]);
      const expected = Array.from({ length: columns }, (_, at) => directSum(column(re, at), column(im, at)));
      const scratch = Array.from({ length: 4 }, () => new Float64Array(of.padded.length).fill(NaN));
      transformColumns(of, scratch, columns, re, im);
      expected.forEach(([wantedRe, wantedIm], at) => {
        near(column(re, at), wantedRe, 1e-13, `column ${at} of ${columns}, real parts`);
        near(column(im, at), wantedIm, 1e-13, `column ${at} of ${columns}, imaginary parts`);
      });
    }
  });
});
