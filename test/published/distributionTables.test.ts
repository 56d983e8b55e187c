import { strict as assert } from 'node:assert';
import { chiSquareQuantile } from '../../src/statistics/distributions/chiSquare.ts';
import { studentTInterval } from '../../src/statistics/distributions/studentT.ts';
import { runsNeededForLog } from '../../src/statistics/repeats.ts';

/** Fails unless the number, rounded to the table's decimals, is the table's. */
function printed(got: number, want: string, what: string): void {
  assert.equal(got.toFixed(want.split('.')[1]?.length ?? 0), want, what);
}

describe('printed tables of the distributions come out to their last digit', () => {
  it("Student's t", () => {
    // T. T. Soong, "Fundamentals of Probability and Statistics for Engineers" (2004), table A.4, upper tail areas.
    const tails = [0.1, 0.05, 0.025, 0.01, 0.005];
    const table: Record<number, string> = {
      1: '3.078 6.314 12.706 31.821 63.657',
      2: '1.886 2.920 4.303 6.965 9.925',
      3: '1.638 2.353 3.182 4.541 5.841',
      4: '1.533 2.132 2.776 3.747 4.604',
      5: '1.476 2.015 2.571 3.365 4.032',
      6: '1.440 1.943 2.447 3.143 3.707',
      8: '1.397 1.860 2.306 2.896 3.355',
      10: '1.372 1.812 2.228 2.764 3.169',
      15: '1.341 1.753 2.131 2.602 2.947',
      21: '1.323 1.721 2.080 2.518 2.831',
    };
    for (const [df, line] of Object.entries(table)) {
      line
        .split(' ')
        .forEach((want, k) => printed(studentTInterval(1 - 2 * tails[k], Number(df)), want, `df ${df}, ${tails[k]}`));
    }
  });

  it('the normal limits, as t with many degrees of freedom', () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods (NIST Handbook 151), 1.3.6.7.2, last line: infinite degrees of freedom.
    const line = { 0.1: '1.282', 0.05: '1.645', 0.025: '1.960', 0.01: '2.326', 0.005: '2.576', 0.001: '3.090' };
    for (const [tail, want] of Object.entries(line)) printed(studentTInterval(1 - 2 * Number(tail), 1e8), want, tail);
  });

  it('chi-square', () => {
    // Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 26.8.
    const table: [p: number, df: number, want: string][] = [
      [0.025, 1, '0.000982'],
      [0.95, 1, '3.841'],
      [0.95, 2, '5.991'],
      [0.025, 10, '3.247'],
      [0.975, 10, '20.483'],
      [0.99, 5, '15.086'],
      [0.05, 30, '18.493'],
      [0.975, 100, '129.561'],
    ];
    for (const [p, df, want] of table) printed(chiSquareQuantile(p, df), want, `df ${df}, ${p}`);
  });

  it('sample sizes of the two-sample t test, by effect size', () => {
    // J. Cohen, Statistical Power Analysis for the Behavioral Sciences, 2nd edition (1988), table 2.4.1: number in each
    // group, two-tailed 5 %, power 80 % and 90 %; d is the difference in standard deviations. The table is cut or
    // rounded from approximations, so one run, or one in a thousand, is allowed.
    const table: [d: number, at80: number, at90: number][] = [
      [0.1, 1571, 2102],
      [0.2, 393, 526],
      [0.3, 175, 234],
      [0.4, 99, 132],
      [0.5, 64, 85],
      [0.6, 45, 59],
      [0.7, 33, 44],
      [0.8, 26, 34],
      [1.0, 17, 22],
    ];
    for (const [d, at80, at90] of table) {
      for (const [power, want] of [
        [0.9, at90],
        [0.8, at80],
      ]) {
        const got = runsNeededForLog(d, { spread: 1, power })?.runs ?? 0;
        assert.ok(
          Math.abs(got - want) <= Math.max(1, want / 1000),
          `d ${d}, power ${power}: ${got}, in the table ${want}`,
        );
      }
    }
  });
});
