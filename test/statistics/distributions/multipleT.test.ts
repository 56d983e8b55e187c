import { strict as assert } from 'node:assert';
import { multipleTLimit, multipleTSurvival, type MultipleT } from '../../../src/statistics/distributions/multipleT.ts';
import { normalCdf } from '../../../src/statistics/distributions/normal.ts';
import { studentTTwoSided } from '../../../src/statistics/distributions/studentT.ts';

const dunnett = (changes: number, correlation: number): MultipleT => ({ kind: 'dunnett', changes, correlation });
const tukey = (conditions: number): MultipleT => ({ kind: 'tukey', conditions });
const close = (found: number, wanted: number, within: number): void =>
  assert.ok(Math.abs(found - wanted) <= within, `${found} is not ${wanted}`);

describe('the largest of several t', () => {
  it('is one t, two-sided, where there is but one change, or two conditions', () => {
    for (const df of [3, 7.5, 40])
      for (const t of [0.2, 1, 2.5, 6]) {
        const one = studentTTwoSided(t, df);
        for (const correlation of [0, 0.3, 0.5, 0.9])
          close(multipleTSurvival(t, df, dunnett(1, correlation)), one, 1e-7);
        close(multipleTSurvival(t, df, tukey(2)), one, 1e-7);
      }
  });

  it('exceeds a limit as often as the studentized range does', () => {
    // scipy 1.10.1, stats.studentized_range.sf(t sqrt(2), conditions, df).
    for (const [t, df, conditions, chance] of [
      [0.3, 7, 4, 0.98980257],
      [1, 4, 3, 0.615155453],
      [2.5, 4, 3, 0.136061501],
      [2.5, 10, 4, 0.120177972],
      [3.5, 20, 5, 0.0170580146],
      [2, 2.5, 8, 0.593463176],
      [4.5, 60, 3, 9.33423112e-5],
    ])
      close(multipleTSurvival(t, df, tukey(conditions)), chance, 2e-8);
  });

  it('exceeds a limit as often as Dunnett’s double integral says, whatever the correlation', () => {
    // The integral of the docstring by scipy 1.10.1, integrate.quad within integrate.quad.
    for (const [t, df, changes, correlation, chance] of [
      [2.5, 6, 2, 0.5, 0.0801325181],
      [2, 12, 5, 0.3, 0.254920317],
      [3, 4, 3, 0.1, 0.0972744602],
      [1, 9, 4, 0.5, 0.719549183],
    ])
      close(multipleTSurvival(t, df, dunnett(changes, correlation)), chance, 2e-8);
  });

  it('goes to Šidák’s chance where nothing is shared: no correlation, and a scatter that is known', () => {
    for (const changes of [2, 5])
      for (const t of [0.7, 1.96, 3.1])
        close(multipleTSurvival(t, 1e7, dunnett(changes, 0)), 1 - (2 * normalCdf(t) - 1) ** changes, 1e-6);
  });

  it('is above 0 for certain and never above what has no end, within 0 to 1', () => {
    for (const of of [dunnett(3, 0.5), tukey(4)]) {
      const chances = [0, 0.5, 1, 2, 4, 8, 16, 60].map((t) => multipleTSurvival(t, 9, of));
      close(chances[0], 1, 1e-12);
      assert.ok(
        chances.every((one) => one >= 0 && one <= 1),
        chances.join(),
      );
      assert.ok(
        chances.every((one, k) => k === 0 || one < chances[k - 1] || one < 1e-12),
        chances.join(),
      );
      assert.ok(chances[7] < 1e-10);
    }
  });

  it('has a limit that turns about with its chance, between one t and Bonferroni’s for all', () => {
    for (const df of [3, 40])
      for (const chance of [0.2, 0.01])
        for (const of of [dunnett(7, 0.2), tukey(3)]) {
          const limit = multipleTLimit(chance, df, of);
          // To nine digits of the chance, which the limit is sought by.
          close(multipleTSurvival(limit, df, of) / chance, 1, 1e-9);
          const count = of.kind === 'dunnett' ? of.changes : (of.conditions * (of.conditions - 1)) / 2;
          assert.ok(studentTTwoSided(limit, df) < chance && count * studentTTwoSided(limit, df) > chance);
          assert.equal(multipleTLimit(chance, df, { ...of }), limit);
        }
  });

  it('has a limit that grows with the number of changes and of conditions, and falls with the correlation', () => {
    const rising = (limits: readonly number[]): void =>
      limits.forEach((one, k) => assert.ok(k === 0 || one > limits[k - 1], limits.join()));
    rising([1, 2, 6].map((changes) => multipleTLimit(0.05, 8, dunnett(changes, 0.5))));
    rising([2, 3, 8].map((conditions) => multipleTLimit(0.05, 8, tukey(conditions))));
    rising([0.9, 0.5, 0].map((correlation) => multipleTLimit(0.05, 8, dunnett(4, correlation))));
  });
});
