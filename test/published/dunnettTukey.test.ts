import { strict as assert } from 'node:assert';
import { multipleTLimit, multipleTSurvival } from '../../src/statistics/distributions/multipleT.ts';

const close = (found: number, wanted: number, tolerance: number): void =>
  assert.ok(Math.abs(found - wanted) <= tolerance, `${found} is not ${wanted}`);
const dunnett = (changes: number, df: number, chance = 0.05): number =>
  multipleTLimit(chance, df, { kind: 'dunnett', changes, correlation: 0.5 });
const tukey = (conditions: number, df: number): number =>
  Math.SQRT2 * multipleTLimit(0.05, df, { kind: 'tukey', conditions });

describe('limits of several t together', () => {
  it('are Dunnett’s, two-sided, for equal numbers of runs', () => {
    // To 8 digits by a second program written from the formula; to two, table 2a of Dunnett 1964, Biometrics 20, 482-491.
    close(dunnett(2, 10), 2.56833888, 2e-7);
    close(dunnett(3, 8), 2.87966151, 2e-7);
    close(dunnett(3, 10), 2.75899698, 2e-7);
    for (const [changes, df, wanted] of [
      [2, 5, 3.03],
      [3, 5, 3.29],
      [2, 20, 2.38],
      [4, 20, 2.65],
      [2, 60, 2.27],
    ])
      close(dunnett(changes, df), wanted, 0.0051);
    close(dunnett(2, 10, 0.01), 3.53, 0.0051);
  });

  it('are Tukey’s studentized range, as its printed tables have it', () => {
    // Upper 5 % points (Pearson and Hartley 1966, Biometrika Tables I, table 29); the first by a second program.
    close(tukey(3, 10) / Math.SQRT2, 2.74129513, 2e-7);
    for (const [conditions, df, wanted] of [
      [2, 10, 3.15],
      [3, 10, 3.88],
      [4, 10, 4.33],
      [3, 20, 3.58],
      [5, 60, 3.98],
    ])
      close(tukey(conditions, df), wanted, 0.0051);
  });

  it('is one t for one change, and turns about with its chance', () => {
    close(dunnett(1, 10), 2.228138852, 1e-8);
    close(multipleTSurvival(dunnett(3, 7), 7, { kind: 'dunnett', changes: 3, correlation: 0.5 }), 0.05, 1e-9);
  });
});
