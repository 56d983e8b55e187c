import { strict as assert } from 'node:assert';
import { compareChanges } from '../../src/statistics/compareChanges.ts';
import type { KnownRun } from '../../src/statistics/knownRun.ts';
import { chooseForChange } from '../../src/statistics/methods.ts';
import { overRefits, refitsOf } from '../../src/statistics/overRefits.ts';

const near = (actual: number | undefined, expected: number, within = 1e-9): void =>
  assert.ok(Math.abs((actual ?? NaN) - expected) <= within, `${actual} is not ${expected}`);

/** Two conditions, three refits of each, two runs of each refit. */
const levels = [
  [0.3, 0.304, 0.318, 0.315, 0.287, 0.291],
  [0.262, 0.259, 0.27, 0.273, 0.249, 0.252],
];
const runs = (refits: (k: number) => string | undefined, place?: (k: number) => number): KnownRun[] =>
  levels.flatMap((side, condition) =>
    side.map((_, k) => ({
      condition: String(condition),
      stratum: '',
      refit: refits(k),
      place: place?.(6 * condition + k),
    })),
  );
const change = { from: '0', to: '1' };
const ofPairs = (k: number): string => String(Math.floor(k / 2));
const compared = (known: readonly KnownRun[]): ReturnType<typeof compareChanges>[number] =>
  compareChanges([levels.flat()], known, [change], {})[0];

describe('a change over refits', () => {
  it('is Welch’s t on the means of the refits, with equal numbers the root of the nested F', () => {
    const { method, rows } = compared(runs(ofPairs));
    assert.equal(method, 'refits');
    const [row] = rows;
    // Two-stage nested analysis of variance by its sums of squares: conditions against refits within them.
    const logs = levels.map((side) => side.map(Math.log));
    const mean = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0) / list.length;
    const means = logs.map((side) => [0, 1, 2].map((r) => mean(side.slice(2 * r, 2 * r + 2))));
    const [all, sides] = [mean(means.flat()), means.map(mean)];
    const between = 6 * sides.reduce((sum, one) => sum + (one - all) ** 2, 0);
    const nested = 2 * means.flatMap((side, c) => side.map((one) => (one - sides[c]) ** 2)).reduce((x, y) => x + y, 0);
    const f = between / (nested / 4);
    const { difference, standardError, df } = row.inference ?? assert.fail('no inference');
    near(difference, sides[1] - sides[0]);
    near((difference / standardError) ** 2, f, 1e-6 * f);
    assert.ok(df > 2 && df <= 4, String(df));
    const { standardError: ofRuns } = compared(runs(() => undefined)).rows[0].inference!;
    assert.ok(standardError > 1.2 * ofRuns, 'the runs alone seem surer');
  });

  it('has a scatter of its own for each condition, unless one stands for all', () => {
    const df = (isPooled?: boolean): number =>
      overRefits(runs(ofPairs), change, isPooled).contrast?.estimate(levels.flat())?.df ?? NaN;
    assert.ok(df() < 3.999 && df(false) === df(), String(df()));
    near(df(true), 4);
  });

  it('takes a drift over the refits’ places out, from three of each on', () => {
    const places = [1, 2, 7, 8, 9, 10, 3, 4, 5, 6, 11, 12];
    const known = runs(ofPairs, (k) => places[k]);
    const { method, sequence } = compared(known);
    assert.equal(method, 'refits-trend');
    assert.equal(sequence, 'interleaved');
    const two = known.filter((_, k) => k % 6 < 4);
    const fewer = compareChanges([levels.flatMap((side) => side.slice(0, 4))], two, [change], {})[0];
    assert.equal(fewer.method, 'refits');
    assert.equal(fewer.rows[0].inference === undefined, false);
  });

  it('takes each refit where its runs stand on average, however many they are', () => {
    const sizes = [1, 3, 2, 2, 1, 3];
    const order = [0, 3, 1, 4, 2, 5];
    const starts = sizes.map((_, k) => order.slice(0, order.indexOf(k)).reduce((sum, one) => sum + sizes[one], 0));
    const known = sizes.flatMap((size, refit) =>
      Array.from({ length: size }, (_, k): KnownRun => ({
        condition: refit < 3 ? '0' : '1',
        stratum: '',
        refit: String(refit),
        place: starts[refit] + k + 1,
      })),
    );
    const y = known.map(
      ({ place = 0, condition }, k) => 0.02 * place + (condition === '1' ? -0.15 : 0) + 0.01 * ((k * k) % 7),
    );
    const units = sizes.map((size, refit): KnownRun => ({
      condition: refit < 3 ? '0' : '1',
      stratum: '',
      place: starts[refit] + (size + 1) / 2,
    }));
    const means = sizes.map((size, refit) => {
      const from = sizes.slice(0, refit).reduce((sum, one) => sum + one, 0);
      return y.slice(from, from + size).reduce((sum, one) => sum + one, 0) / size;
    });
    const found = overRefits(known, change);
    const wanted = chooseForChange(units, change, undefined, false);
    assert.equal(found.method, 'refits-trend');
    const [ours, theirs] = [found.contrast?.estimate(y), wanted.contrast?.estimate(means)];
    for (const key of ['difference', 'standardError', 'df'] as const) near(ours?.[key], theirs![key]);
  });

  it('gives no outcome where all refits of one condition came before the other’s', () => {
    const { sequence, rows } = compared(runs(ofPairs, (k) => k + 1));
    assert.equal(sequence, 'apart');
    assert.equal(rows[0].outcome, 'not shown');
  });

  it('is that of the runs where each was fitted once, and says so', () => {
    const { method, notes } = compared(runs(() => '1'));
    assert.equal(method, 'welch');
    assert.deepEqual(notes, [{ code: 'fitted-once', onceA: true, onceB: true }]);
    const one = runs(ofPairs).map((run) => (run.condition === '1' ? { ...run, refit: '1' } : run));
    assert.deepEqual(compared(one).notes, [{ code: 'fitted-once', onceA: false, onceB: true }]);
  });

  it('is that of the runs where each run is a refit of its own, and where the sheet tells of none', () => {
    for (const known of [runs(String), runs(() => undefined)]) {
      const { method, notes } = compared(known);
      assert.equal(method, 'welch');
      assert.deepEqual(notes, []);
    }
    assert.equal(
      refitsOf(
        runs(() => undefined),
        change,
      ),
      undefined,
    );
  });
});
