import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import * as chiSquare from '../../../src/statistics/distributions/chiSquare.ts';
import * as f from '../../../src/statistics/distributions/f.ts';
import { lnGamma } from '../../../src/statistics/distributions/gamma.ts';
import { incompleteBeta } from '../../../src/statistics/distributions/incompleteBeta.ts';
import { incompleteGamma } from '../../../src/statistics/distributions/incompleteGamma.ts';
import * as noncentralT from '../../../src/statistics/distributions/noncentralT.ts';
import * as normal from '../../../src/statistics/distributions/normal.ts';
import * as studentT from '../../../src/statistics/distributions/studentT.ts';

const df = fc.double({ min: 0.5, max: 5000, noNaN: true });
const p = fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true });
const close = (got: number, want: number, relative: number): void =>
  assert.ok(Math.abs(got - want) <= relative * Math.abs(want), `${got}, wanted ${want}`);
/** Checks the tail that is small, where a quantile can be told exactly. */
const roundTrip = (p: number, lower: number, upper: number): void =>
  p < 0.5 ? close(lower, p, 1e-9) : close(upper, 1 - p, 1e-9);

describe('distributions', () => {
  it('give back the probability of their quantile', () => {
    fc.assert(
      fc.property(p, df, df, (p, d, e) => {
        const z = normal.normalQuantile(p);
        roundTrip(p, normal.normalCdf(z), normal.normalSurvival(z));
        const x = chiSquare.chiSquareQuantile(p, d);
        roundTrip(p, chiSquare.chiSquareCdf(x, d), chiSquare.chiSquareSurvival(x, d));
        const t = studentT.studentTQuantile(p, d);
        roundTrip(p, studentT.studentTCdf(t, d), studentT.studentTSurvival(t, d));
        const q = f.fQuantile(p, d, e);
        roundTrip(p, f.fCdf(q, d, e), f.fSurvival(q, d, e));
      }),
      { numRuns: 150 },
    );
  });

  it('have tails that add up to 1 and quantiles that rise', () => {
    fc.assert(
      fc.property(p, p, df, (p1, p2, d) => {
        const [low, high] = p1 < p2 ? [p1, p2] : [p2, p1];
        // Two p that differ in their last digits only may come out in either order, by a rounding.
        const rises = (a: number, b: number): void => assert.ok(a <= b + 1e-12 * Math.abs(b), `${a} above ${b}`);
        rises(studentT.studentTQuantile(low, d), studentT.studentTQuantile(high, d));
        rises(chiSquare.chiSquareQuantile(low, d), chiSquare.chiSquareQuantile(high, d));
        const x = 2 * d * p1;
        close(chiSquare.chiSquareCdf(x, d) + chiSquare.chiSquareSurvival(x, d), 1, 1e-12);
      }),
      { numRuns: 150 },
    );
  });

  it('hang together: t squared is F with 1, chi-square over df is F with many, chi-square with 2 is exponential', () => {
    fc.assert(
      fc.property(p, fc.double({ min: 0.5, max: 500, noNaN: true }), (p, d) => {
        const t = studentT.studentTInterval(p, d);
        close(f.fQuantile(p, 1, d), t * t, 1e-9);
        close(f.fQuantile(p, d, 1e10), chiSquare.chiSquareQuantile(p, d) / d, 1e-5);
        close(chiSquare.chiSquareUpperQuantile(p, 2), -2 * Math.log(p), 1e-9);
      }),
      { numRuns: 100 },
    );
  });

  it('the reciprocal of an F is an F with the degrees of freedom exchanged', () => {
    fc.assert(
      fc.property(p, df, df, (p, d, e) => close(f.fQuantile(p, d, e), 1 / f.fUpperQuantile(p, e, d), 1e-10)),
      { numRuns: 100 },
    );
  });

  it('noncentral t without noncentrality is t, and mirrors with its sign', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: -8, max: 8, noNaN: true }),
        (t, d, delta) => {
          close(noncentralT.noncentralTCdf(t, d, 0), studentT.studentTCdf(t, d), 1e-10);
          close(noncentralT.noncentralTCdf(t, d, delta), noncentralT.noncentralTSurvival(-t, d, -delta), 1e-12);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('noncentral t gives back the probability of its quantile', () => {
    for (const [d, delta] of [
      [2, 0],
      [6, 3.2],
      [18, -5],
      [3.5, 12],
    ]) {
      for (const p of [1e-6, 0.025, 0.5, 0.8, 0.9999]) {
        close(noncentralT.noncentralTCdf(noncentralT.noncentralTQuantile(p, d, delta), d, delta), p, 1e-9);
      }
    }
  });

  it('answer the ends of their range with limits, never with NaN', () => {
    assert.deepEqual(
      [normal.normalQuantile(0), normal.normalQuantile(1), normal.normalQuantile(0.5)],
      [-Infinity, Infinity, 0],
    );
    assert.deepEqual([chiSquare.chiSquareQuantile(0, 3), chiSquare.chiSquareQuantile(1, 3)], [0, Infinity]);
    assert.deepEqual([chiSquare.chiSquareCdf(-1, 3), chiSquare.chiSquareSurvival(Infinity, 3)], [0, 0]);
    assert.deepEqual([f.fQuantile(0, 3, 4), f.fQuantile(1, 3, 4), f.fCdf(Infinity, 3, 4)], [0, Infinity, 1]);
    assert.deepEqual(
      [studentT.studentTQuantile(0, 3), studentT.studentTQuantile(1, 3), studentT.studentTQuantile(0.5, 3)],
      [-Infinity, Infinity, 0],
    );
    assert.deepEqual([studentT.studentTCdf(-Infinity, 3), studentT.studentTCdf(Infinity, 3)], [0, 1]);
    assert.deepEqual([normal.normalCdf(-Infinity), normal.normalCdf(Infinity), normal.normalCdf(-200)], [0, 1, 0]);
    assert.deepEqual(
      [noncentralT.noncentralTQuantile(0, 3, 1), noncentralT.noncentralTQuantile(1, 3, 1)],
      [-Infinity, Infinity],
    );
    assert.equal(lnGamma(0), Infinity);
  });

  it('refuse arguments that mean nothing, by name and value', () => {
    assert.throws(() => studentT.studentTCdf(NaN, 3), /t must be a number/);
    assert.throws(() => studentT.studentTQuantile(1.2, 3), /p must lie between 0 and 1, but is 1.2/);
    assert.throws(() => chiSquare.chiSquareQuantile(0.5, 0), /df must be above 0 and at most 1e12, but is 0/);
    assert.throws(() => chiSquare.chiSquareCdf(1, NaN), /df/);
    assert.throws(() => f.fCdf(1, 2, -1), /df2/);
    assert.throws(
      () => noncentralT.noncentralTCdf(1, 2, Infinity),
      /delta must lie between -200 and 200, but is Infinity/,
    );
    assert.throws(() => normal.normalQuantile(NaN), RangeError);
    assert.throws(() => lnGamma(-1), /x must not be negative/);
    assert.throws(() => incompleteGamma(0, 1), /a must be above 0/);
    assert.throws(() => incompleteBeta(1, 1, 0.5, 0.6), /add up to 1/);
  });

  it('the largest degrees of freedom still end, near the normal limits', () => {
    close(studentT.studentTInterval(0.95, 1e10), 1.959963984540054, 1e-9);
    close(chiSquare.chiSquareQuantile(0.5, 1e9), 1e9, 1e-8);
  });
});
