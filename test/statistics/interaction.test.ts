import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { compareChanges } from '../../src/statistics/compareChanges.ts';
import { interactionOf } from '../../src/statistics/interaction.ts';
import type { KnownRun } from '../../src/statistics/knownRun.ts';

const change = { from: 'a', to: 'b' };
const runsOf = (cells: readonly (readonly [condition: string, stratum: string, runs: number])[]): KnownRun[] =>
  cells.flatMap(([condition, stratum, runs]) => Array.from({ length: runs }, () => ({ condition, stratum })));
const four = runsOf([
  ['a', 'low', 3],
  ['b', 'low', 3],
  ['a', 'high', 3],
  ['b', 'high', 3],
]);
const levels = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 12, maxLength: 12 });

describe('the interaction of a change with strata', () => {
  it('is that of Tippett 1950, of breaks in yarn, as R’s anova gives it', () => {
    // The data `warpbreaks` of R (Tippett 1950, Technological Applications of Statistics, p. 106); anova(lm(breaks ~ wool *
    // tension)) prints for wool:tension F 4.1891 with 2 and 48 degrees of freedom, p 0.02104.
    const breaks: Readonly<Record<string, readonly number[]>> = {
      'a L': [26, 30, 54, 25, 70, 52, 51, 26, 67],
      'a M': [18, 21, 29, 17, 12, 18, 35, 30, 36],
      'a H': [36, 21, 24, 18, 10, 43, 28, 15, 26],
      'b L': [27, 14, 29, 19, 29, 31, 41, 20, 44],
      'b M': [42, 26, 19, 16, 39, 28, 21, 39, 29],
      'b H': [20, 21, 24, 17, 13, 15, 15, 16, 28],
    };
    const runs = runsOf(Object.keys(breaks).map((cell) => [cell[0], cell[2], 9]));
    const found = interactionOf({ runs, change, nuisance: [] }, Object.values(breaks).flat()) ?? assert.fail();
    assert.deepEqual(found.df, [2, 48]);
    assert.equal(found.f.toFixed(4), '4.1891');
    assert.equal(found.p.toFixed(5), '0.02104');
  });

  it('stays as it is where all levels of a stratum or of a condition move by one factor, and in another unit', () => {
    fc.assert(
      fc.property(levels, fc.double({ min: -3, max: 3, noNaN: true }), (y, by) => {
        const before = interactionOf({ runs: four, change, nuisance: [] }, y);
        fc.pre(before !== undefined && before.f > 1e-6 && before.f < 1e6);
        for (const isMoved of [
          ({ stratum }: KnownRun) => stratum === 'low',
          ({ condition }: KnownRun) => condition === 'b',
          () => true,
        ]) {
          const moved = y.map((level, k) => (isMoved(four[k]) ? level + by : level));
          const after = interactionOf({ runs: four, change, nuisance: [] }, moved) ?? assert.fail();
          assert.ok(Math.abs(after.f / before.f - 1) < 1e-6);
        }
      }),
    );
  });

  it('is told of no single stratum, of none that lacks a condition, without residuals and without scatter', () => {
    const y = [0.1, 0.3, 0.2, 0.5, 0.4, 0.2];
    const of = (runs: KnownRun[], list = y): unknown => interactionOf({ runs, change, nuisance: [] }, list);
    assert.equal(
      of(
        runsOf([
          ['a', 'low', 3],
          ['b', 'low', 3],
        ]),
      ),
      undefined,
    );
    assert.equal(
      of(
        runsOf([
          ['a', 'low', 2],
          ['b', 'low', 2],
          ['a', 'high', 2],
        ]),
      ),
      undefined,
    );
    const single = runsOf([
      ['a', 'low', 1],
      ['b', 'low', 1],
      ['a', 'high', 1],
      ['b', 'high', 1],
    ]);
    assert.equal(of(single, y.slice(0, 4)), undefined);
    assert.equal(
      of(
        four,
        four.map(({ condition }) => (condition === 'a' ? 1 : 2)),
      ),
      undefined,
    );
  });

  it('takes no account of other conditions and of reference runs', () => {
    const y = [0.1, 0.3, 0.2, 0.5, 0.4, 0.2, 0.7, 0.1, 0.3, 0.6, 0.1, 0.4];
    const more = [
      ...four,
      ...runsOf([
        ['c', 'low', 2],
        ['c', 'high', 2],
      ]),
      { condition: 'b', stratum: 'low', isReference: true },
    ];
    assert.deepEqual(
      interactionOf({ runs: more, change, nuisance: [] }, [...y, 9, 8, 7, 6, 5]),
      interactionOf({ runs: four, change, nuisance: [] }, y),
    );
  });
});

describe('rows over all strata', () => {
  const order = ['a', 'b', 'b', 'a', 'b', 'a', 'a', 'b'];
  const runs = ['low', 'high'].flatMap((stratum) =>
    order.map((condition, k): KnownRun => ({ condition, stratum, place: k + 1 })),
  );
  const noise = [3, -2, 5, 1, -4, 2, -1, 4, -3, 2, 1, -5, 3, -2, 4, 0];
  const band = (by: number): number[] =>
    runs.map(({ condition, stratum }, k) =>
      Math.exp(0.01 * noise[(k * by) % 16] - (condition === 'b' && stratum === 'low' ? 0.2 : 0) + 0.02 * k),
    );
  const changes = [undefined, 'low', 'high'].map((stratum) => ({ ...change, stratum }));

  it('hold it with the drift taken out, alone and for all rows together; rows of one stratum have none', () => {
    const [over, ...within] = compareChanges([band(1), band(3)], runs, changes, {});
    assert.equal(over.method, 'trend');
    for (const { interaction, family } of over.rows) {
      assert.ok(interaction !== undefined && family === 2);
      assert.deepEqual(interaction.df, [1, 11]);
      assert.equal(interaction.pTogether, Math.min(1, 2 * interaction.p));
      assert.ok(interaction.p < 0.001);
    }
    assert.ok(within.every(({ rows }) => rows.every(({ interaction }) => interaction === undefined)));
  });

  it('hold none where all of one condition came first, and where runs are nested in refits', () => {
    const apart = runs.map((run, k) => ({ ...run, place: (k % 8) + 1 + (run.condition === 'b' ? 10 : 0) }));
    const nested = runs.map((run, k) => ({ ...run, refit: k % 8 < 4 ? 'first' : 'second' }));
    for (const known of [apart, nested]) {
      const [over] = compareChanges([band(1)], known, changes, {});
      assert.ok(over.rows[0].inference !== undefined);
      assert.equal(over.rows[0].interaction, undefined);
    }
  });
});
