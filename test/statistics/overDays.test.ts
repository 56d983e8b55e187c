import { strict as assert } from 'node:assert';
import { compareChanges } from '../../src/statistics/compareChanges.ts';
import type { KnownRun } from '../../src/statistics/knownRun.ts';
import { isFirstOnEveryDay, overDays } from '../../src/statistics/overDays.ts';

const change = { from: 'A', to: 'B' };
const near = (found: number | undefined, expected: number): void =>
  assert.ok(Math.abs((found ?? NaN) - expected) < 1e-12, `${found} is not ${expected}`);

/** Runs on days, each a row of letters; R is a reference run. */
const onDays = (...days: readonly string[]): KnownRun[] =>
  days.flatMap((letters, day) =>
    [...letters].map((condition, k) => ({
      condition,
      stratum: '',
      day: String(day),
      place: 10 * day + k,
      ...(condition === 'R' ? { isReference: true } : {}),
    })),
  );

describe('a change over days', () => {
  it('is Student’s t of the days’ own changes, each of the means of its runs', () => {
    // Changes 2 - 1 = 1, 5 - 3 = 2 and 6 - 0 = 6: mean 3, variance 7, standard error sqrt(7 / 3).
    const runs = onDays('ABR', 'AABR', 'ABB');
    const y = [1, 2, 99, 2, 4, 5, 98, 0, 5, 7];
    const { weights, varianceInflation, estimate } = overDays(runs, change) ?? assert.fail();
    [-1, 1, 0, -0.5, -0.5, 1, 0, -1, 0.5, 0.5].forEach((weight, i) => near(weights[i], weight / 3));
    assert.equal(varianceInflation, 1);
    const { difference, standardError, df } = estimate(y) ?? assert.fail();
    near(difference, 3);
    near(standardError, Math.sqrt(7 / 3));
    assert.equal(df, 2);
  });

  it('is of each day the mean over its strata, with equal weights', () => {
    const runs = onDays('AB', 'AB').flatMap((run) => [
      { ...run, stratum: 'brick' },
      { ...run, stratum: 'tile' },
    ]);
    // Day 0: brick 1, tile 3; day 1: brick 2, tile 6.
    const { difference, standardError, df } =
      overDays(runs, change)?.estimate([0, 0, 1, 3, 0, 0, 2, 6]) ?? assert.fail();
    near(difference, 3);
    near(standardError, 1);
    assert.equal(df, 1);
  });

  it('leaves out a reference run, whatever it was made in', () => {
    const [first, ...others] = onDays('AAB', 'AB');
    const weights = overDays([{ ...first, isReference: true }, ...others], change)?.weights ?? assert.fail();
    assert.deepEqual([...weights], [0, -0.5, 0.5, -0.5, 0.5]);
  });

  it('is none of a single day', () => assert.equal(overDays(onDays('ABBA'), change), undefined));
});

describe('one condition first on every day', () => {
  const strata = (...letters: readonly string[]): KnownRun[] =>
    letters.flatMap((row, stratum) => onDays(row).map((run) => ({ ...run, stratum: String(stratum) })));
  it('is so where it came first in each stratum', () => {
    const cases: readonly (readonly [strata: readonly string[], isFirst: boolean])[] = [
      [['AB'], true],
      [['BA'], true],
      [['ABBA'], false],
      [['AB', 'AB'], true],
      [['BA', 'BA'], true],
      [['AB', 'BA'], false],
      [['AB', 'ABA'], false],
      [['ABA', 'BAB'], false],
      [['AABB', 'ACB'], true],
      [['ABAB'], false],
      [['BABA'], false],
    ];
    for (const [letters, isFirst] of cases)
      assert.equal(isFirstOnEveryDay(strata(...letters), change), isFirst, letters.join(' '));
  });
});

describe('changes that stand for other days', () => {
  // Each day is a stratum, as days that stand for others are.
  const studied = (...days: readonly string[]): KnownRun[] =>
    onDays(...days).map((run) => ({ ...run, stratum: run.day ?? '' }));
  const found = (runs: readonly KnownRun[]) =>
    compareChanges([runs.map((_, k) => 1 + 0.1 * Math.sin(k))], runs, [change], { isOverDays: true })[0];
  it('are withheld where one side came first on every day', () => {
    const { method, sequence, runsA, runsB } = found(studied('AB', 'BA', 'AB'));
    assert.deepEqual([method, sequence, runsA, runsB], ['over-days', 'interleaved', 3, 3]);
    assert.equal(found(studied('AB', 'AB', 'AB')).sequence, 'apart');
    const unplaced = studied('AB', 'AB', 'AB').map((run) => ({ ...run, place: undefined }));
    assert.equal(found(unplaced).sequence, 'unknown');
  });
});
