import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { compare } from '../../scripts/simulate/compareTwo.ts';
import { compareChanges } from '../../src/statistics/compareChanges.ts';
import type { AskedChange, Comparison } from '../../src/statistics/comparison.ts';
import type { KnownRun } from '../../src/statistics/knownRun.ts';

const a = [0.3, 0.312, 0.305, 0.309];
const b = [0.262, 0.255, 0.27, 0.259];
const abba = { order: { a: [1, 4, 6, 7], b: [2, 3, 5, 8] } };
const apart = { order: { a: [1, 2, 3, 4], b: [5, 6, 7, 8] } };
const codes = ({ notes }: Comparison): string[] => notes.map(({ code }) => code);

describe('compare', () => {
  it('says by which method, with the runs, both levels, the change and its outcome', () => {
    const comparison = compare([{ a, b }]);
    assert.equal(comparison.method, 'welch');
    assert.deepEqual([comparison.runsA, comparison.runsB, comparison.sequence], [4, 4, 'unknown']);
    const [row] = comparison.rows;
    assert.equal(row.outcome, 'lower');
    assert.ok(row.inference && row.ratio && row.a && row.b && row.changeDb && row.powerPercent && row.spread);
    assert.ok(Math.abs(row.ratio - row.b / row.a) < 1e-12);
    assert.ok(Math.abs(row.changeDb - 20 * Math.log10(row.ratio)) < 1e-12);
    assert.ok(Math.abs(row.powerPercent - 100 * (row.ratio ** 2 - 1)) < 1e-12);
    assert.equal(row.inference.excluded.increasePercent, 0);
    assert.ok(Math.abs(row.inference.excluded.reductionPercent - 100 * (1 - row.inference.interval.low)) < 1e-12);
    assert.deepEqual(codes(comparison), []);
    assert.equal(compare([{ a, b }], abba).method, 'trend');
  });

  it('infers nothing under 3 runs a side, whatever was asked: the ratio stands alone', () => {
    for (const method of [undefined, 'paired', 'trend'] as const) {
      const options = { method, order: { a: [1, 4], b: [2, 3] }, margin: 0.05 };
      const comparison = compare([{ a: [0.3, 0.31], b: [0.2, 0.21] }], options);
      assert.equal(comparison.method, 'no inference');
      assert.deepEqual(comparison.notes, [{ code: 'few-runs', runsA: 2, runsB: 2, needed: 3 }]);
      const [row] = comparison.rows;
      assert.deepEqual([row.inference, row.outcome], [undefined, 'not shown']);
      assert.ok(row.changePercent && row.changePercent < -30);
    }
    assert.equal(compare([{ a, b: [0.2] }]).method, 'no inference');
    const single = compare([{ a: [1], b: [0.9] }]);
    assert.deepEqual([single.method, codes(single)], ['one run each', ['one-run-each']]);
  });

  it('uses what the layout calls for, with a reason, where the method asked for cannot be used', () => {
    const unequal = compare([{ a, b: b.slice(1) }], { method: 'paired' });
    assert.equal(unequal.method, 'welch');
    assert.deepEqual(unequal.notes, [
      {
        code: 'method-not-possible',
        method: 'paired',
        instead: 'welch',
        obstacle: 'unequal-counts',
        runsA: 4,
        runsB: 3,
      },
    ]);
  });

  it('gives no outcome where all of one side came first, with the figures all the same', () => {
    const comparison = compare([{ a, b }], apart);
    assert.equal(comparison.sequence, 'apart');
    const [row] = comparison.rows;
    assert.equal(row.outcome, 'not shown');
    assert.ok(row.inference && row.inference.interval.low < 1);
    const [note] = comparison.notes;
    assert.ok(note.code === 'order-apart' && Math.abs((note.varianceInflation ?? 0) - 4.2) < 0.005);
  });

  it('gives no outcome where no day has runs of both and runs share days', () => {
    const days = (daysA: string, daysB: string) => ({ ...abba, days: { a: [...daysA], b: [...daysB] } });
    for (const nested of [days('1111', '2222'), days('1133', '2244'), days('1133', '2225')]) {
      const comparison = compare([{ a, b }], nested);
      assert.deepEqual([comparison.sequence, codes(comparison)], ['other-days', ['other-days']]);
      assert.equal(comparison.rows[0].outcome, 'not shown');
    }
    // A day of its own for each run is part of how runs scatter; and a day with both sides tells what it does.
    for (const fine of [days('1357', '2468'), days('1122', '1122'), days('1133', '2223')])
      assert.notEqual(compare([{ a, b }], fine).sequence, 'other-days');
  });

  it('warns of an order that leans, with what it costs', () => {
    const leaning = compare([{ a, b }], { order: { a: [1, 2, 4, 5], b: [3, 6, 7, 8] } });
    assert.equal(leaning.sequence, 'leaning');
    assert.deepEqual(codes(leaning), ['order-leans']);
    assert.deepEqual(codes(compare([{ a, b }], abba)), []);
  });

  it('pairs by the order of the runs and warns where a pair did not follow one another', () => {
    const order = { a: [7, 1, 4, 6], b: abba.order.b };
    const shuffled = compare([{ a: [a[3], a[0], a[1], a[2]], b }], { method: 'paired', order });
    const plain = compare([{ a, b }], { method: 'paired', ...abba });
    const [low, same] = [shuffled, plain].map(({ rows: [row] }) => row.inference?.interval.low ?? NaN);
    assert.ok(Math.abs(low - same) < 1e-12);
    assert.deepEqual(codes(plain), []);
    assert.ok(codes(compare([{ a, b }], { method: 'paired', ...apart })).includes('pairs-not-neighbours'));
  });

  it('tells the scatter without what the method takes out: drift, pairs and days', () => {
    const drift = (levels: readonly number[], places: readonly number[]): number[] =>
      levels.map((level, k) => level * Math.exp(0.05 * places[k]));
    const { order } = abba;
    const drifting = { a: drift(a, order.a), b: drift(b, order.b) };
    const spread = (side: { a: readonly number[]; b: readonly number[] }, options: Parameters<typeof compare>[1]) =>
      compare([side], options).rows[0].spread ?? NaN;
    assert.ok(Math.abs(spread(drifting, abba) - spread({ a, b }, abba)) < 1e-12);
    assert.ok(spread(drifting, {}) > 3 * spread({ a, b }, {}));
    const wandering = { a: a.map((level, k) => level * (1 + k)), b: b.map((level, k) => level * (1 + k)) };
    assert.ok(Math.abs(spread(wandering, { method: 'paired' }) - spread({ a, b }, { method: 'paired' })) < 1e-12);
  });

  it('states the rows that are not primary together, and the primary one by itself', () => {
    const still = { a, b: [0.306, 0.309, 0.304, 0.311] };
    const faint = { a, b: [0.298, 0.302, 0.295, 0.299] };
    const family = compare([{ a, b }, still, faint]);
    assert.equal(family.family, 3);
    for (const { inference } of family.rows)
      assert.ok(inference && Math.abs(inference.p - Math.min(1, 3 * inference.pAlone)) < 1e-12);
    const alone = family.rows[2].inference?.pAlone ?? 0;
    assert.ok(alone < 0.05 && 3 * alone > 0.05, `the example is one that the family changes: ${alone}`);
    assert.equal(family.rows[2].outcome, 'not shown');

    const primary = compare([{ a, b }, still, faint], { primary: 2 });
    assert.equal(primary.family, 2);
    assert.equal(primary.rows[2].inference?.p, alone);
    assert.equal(primary.rows[2].outcome, 'lower');
    const [wide, narrow] = [family, primary].map(({ rows }) => rows[2].inference?.interval.low ?? 0);
    assert.ok(wide < narrow);
  });

  it('states rows together with those before them', () => {
    const [one, four] = [compare([{ a, b }]), compare([{ a, b }], { besides: 3 })];
    assert.equal(four.family, 4);
    assert.ok(Math.abs((four.rows[0].inference?.p ?? 0) - 4 * (one.rows[0].inference?.p ?? 0)) < 1e-12);
  });

  it('calls equivalent what lies within the margin, even when a difference is shown', () => {
    const near = { a: [1, 1.002, 0.999, 1.001], b: [0.99, 0.991, 0.989, 0.992] };
    const [row] = compare([near], { margin: 0.05 }).rows;
    assert.deepEqual([row.outcome, row.inference?.direction], ['equivalent', 'lower']);
    assert.equal(compare([near]).rows[0].outcome, 'lower');
    // One end within the margin is not enough.
    const half = { a: [1, 1.01, 0.99, 1], b: [1.04, 1.06, 1.05, 1.05] };
    assert.equal(compare([half], { margin: 0.05 }).rows[0].inference?.equivalent, false);
    const other = { a: half.b, b: half.a };
    assert.equal(compare([other], { margin: 0.05 }).rows[0].inference?.equivalent, false);
    assert.equal(compare([{ a, b: [0.31, 0.29, 0.33, 0.3] }], { margin: 0.02 }).rows[0].outcome, 'not shown');
  });

  it('gives a row without a ratio where a level has no logarithm, and goes on with the others', () => {
    const comparison = compare([
      { a, b },
      { a, b: [0.1, 0, 0.1, 0.1] },
      { a, b: [0.1, NaN, 0.1, 0.1] },
    ]);
    assert.deepEqual(
      comparison.notes.map((note) => [note.code, 'band' in note && note.band]),
      [
        ['not-a-level', 1],
        ['not-a-level', 2],
      ],
    );
    assert.deepEqual([comparison.rows[1].ratio, comparison.rows[1].outcome], [undefined, 'not shown']);
    assert.equal(comparison.rows[0].outcome, 'lower');
  });

  it('finds runs that do not differ at all, and infers nothing from them', () => {
    const comparison = compare([{ a: [0.3, 0.3, 0.3], b: [0.1, 0.1, 0.1] }]);
    assert.equal(comparison.rows[0].inference, undefined);
    assert.deepEqual(codes(comparison), ['no-scatter']);
  });

  it('refuses options that mean nothing', () => {
    assert.throws(() => compare([]), /at least one band/);
    assert.throws(() => compare([{ a: [], b }]), /at least one run/);
    assert.throws(
      () =>
        compare([
          { a, b },
          { a, b: b.slice(1) },
        ]),
      /same runs/,
    );
    assert.throws(() => compare([{ a, b }], { confidence: 95 }), /confidence must lie between 0\.5 and 1, but is 95/);
    assert.throws(() => compare([{ a, b }], { primary: 1 }), /no band 1/);
    assert.throws(() => compare([{ a, b }], { order: { a: [1], b: [2] } }), /given for each run/);
    assert.throws(() => compare([{ a, b }], { margin: -1 }), /margin must be above 0/);
  });
});

describe('the changes of several conditions', () => {
  const order = 'ABCCBABCAACB';
  const levels = fc.array(fc.double({ min: 0.5, max: 2, noNaN: true }), { minLength: 24, maxLength: 24 });
  const runsOf = (names: Readonly<Record<string, string>>): KnownRun[] =>
    ['low', 'high'].flatMap((stratum) =>
      [...order].map((letter, k) => ({ condition: names[letter], stratum, place: k + 1 })),
    );
  const all = (names: Readonly<Record<string, string>>): AskedChange[] =>
    [undefined, 'low', 'high'].flatMap((stratum) =>
      ['B', 'C'].map((letter) => ({ from: names['A'], to: names[letter], stratum })),
    );
  const plain = { A: 'a', B: 'b', C: 'c' };
  const figures = (found: readonly Comparison[]): number[] =>
    found.flatMap(({ rows }) =>
      rows.flatMap(({ ratio, inference }) => [ratio ?? NaN, inference?.interval.low ?? NaN, inference?.p ?? NaN]),
    );
  const same = (one: readonly number[], other: readonly number[]): void =>
    one.forEach((value, k) =>
      assert.ok(Math.abs(value - other[k]) <= 1e-7 * (1 + Math.abs(value)), `${value} ${other[k]}`),
    );

  it('do not depend on what the conditions are called, nor on the unit of the levels', () => {
    fc.assert(
      fc.property(levels, fc.double({ min: 0.01, max: 100, noNaN: true }), (row, factor) => {
        const found = figures(compareChanges([row], runsOf(plain), all(plain), {}));
        const named = { A: 'z', B: 'a', C: 'm' };
        same(found, figures(compareChanges([row], runsOf(named), all(named), {})));
        same(found, figures(compareChanges([row.map((level) => level * factor)], runsOf(plain), all(plain), {})));
      }),
      { numRuns: 30 },
    );
  });

  it('hold together row by row, those within single strata by themselves, of those that can be told', () => {
    const row = [...order, ...order].map((_, k) => 1 + 0.1 * Math.sin(5 * k));
    const families = (runs: readonly KnownRun[], rows = [row, row, row], primary: readonly number[] = []): number[][] =>
      compareChanges(rows, runs, all(plain), { primary }).map(({ family, rows }) => [
        family,
        ...rows.map(({ family }) => family),
      ]);
    const runs = runsOf(plain);
    const [over, within] = [Array<number>(4).fill(6), Array<number>(4).fill(12)];
    assert.deepEqual(families(runs), [over, over, within, within, within, within]);
    // One row is primary: two changes of it, and four of the other two.
    assert.deepEqual(families(runs, [row, row, row], [1])[0], [4, 4, 2, 4]);
    assert.deepEqual(families(runs, [row, row, row], [1])[2], within);
    assert.deepEqual(families(runs, [row], [0])[0], [1, 2]);
    // Without all but one run of c in a stratum its changes there, and over both strata, are not told.
    const isLeft = (run: KnownRun, k: number): boolean => run.condition !== 'c' || run.stratum !== 'low' || k === 2;
    const kept = [...runs.keys()].filter((k) => isLeft(runs[k], k));
    const some = families(
      kept.map((k) => runs[k]),
      [kept.map((k) => row[k])],
    );
    assert.deepEqual(
      some,
      [1, 1, 3, 3, 3, 3].map((family) => [family, family]),
    );
  });

  it('are inferred over strata from two runs of each in every one on, and from no single run', () => {
    const method = (each: number): string => {
      const runs = ['low', 'high'].flatMap((stratum) =>
        [...'ab'].flatMap((condition) => Array.from({ length: each }, (): KnownRun => ({ condition, stratum }))),
      );
      const row = runs.map((_, k) => 1 + 0.1 * Math.sin(5 * k));
      return compareChanges([row], runs, [{ from: 'a', to: 'b' }], {})[0].method;
    };
    assert.deepEqual([1, 2].map(method), ['no inference', 'strata']);
  });

  it('fit the slope of a covariate from four runs a side on', () => {
    const codes = (count: number): string[] => {
      const runs = Array.from({ length: 2 * count }, (_, k): KnownRun => ({
        condition: 'ab'[k % 2],
        stratum: '',
        covariates: [Math.sin(k)],
      }));
      const row = runs.map((_, k) => 1 + 0.1 * Math.cos(3 * k));
      return compareChanges([row], runs, [{ from: 'a', to: 'b' }], {})[0].notes.map(({ code }) => code);
    };
    assert.deepEqual([codes(3), codes(4)], [['few-for-slope'], []]);
  });

  it('turn over with their sides', () => {
    fc.assert(
      fc.property(levels, (row) => {
        const [[there], [back]] = [
          { from: 'a', to: 'b' },
          { from: 'b', to: 'a' },
        ].map((change) => compareChanges([row], runsOf(plain), [change], {}));
        const [one, other] = [there.rows[0].inference, back.rows[0].inference];
        assert.ok(one && other);
        same([one.ratio, one.interval.low, one.p], [1 / other.ratio, 1 / other.interval.high, other.p]);
      }),
      { numRuns: 30 },
    );
  });

  it('have Dunnett’s limit against one baseline and Tukey’s among all, where one scatter stands for all', () => {
    const limits = (conditions: string, each: number, changes: readonly AskedChange[]): number[] => {
      const runs = [...conditions].flatMap((condition) =>
        Array.from({ length: each }, (): KnownRun => ({ condition, stratum: '' })),
      );
      const row = runs.map((_, k) => 1 + 0.1 * Math.sin(5 * k));
      return compareChanges([row], runs, changes, { isPooled: true }).map(({ rows: [{ inference }] }) => {
        assert.ok(inference, 'no inference');
        return Math.log(inference.interval.high / inference.ratio) / inference.standardError;
      });
    };
    const against = (from: string, ...others: string[]): AskedChange[] => others.map((to) => ({ from, to }));
    const close = (found: readonly number[], wanted: number): void =>
      found.forEach((one) => assert.ok(Math.abs(one - wanted) < 1e-4, `${one} is not ${wanted}`));
    // Dunnett's double integral by numpy 1.24.2 and scipy 1.10.1 (correlation 1/2; 15 and 20 degrees of freedom).
    close(limits('abc', 6, against('a', 'b', 'c')), 2.43915);
    close(limits('abcd', 6, against('a', 'b', 'c', 'd')), 2.54031);
    // scipy 1.10.1, stats.studentized_range.ppf(.95, k, df) / sqrt(2).
    close(limits('abc', 6, [...against('a', 'b', 'c'), ...against('b', 'c')]), 2.59747);
    close(
      limits('abcd', 6, [...against('a', 'b', 'c', 'd'), ...against('b', 'c', 'd'), ...against('c', 'd')]),
      2.79894,
    );
  });

  it('are equivalent where both ends of the interval lie within the margin, and no single one', () => {
    const runs = [...'aaaabbbb'].map((condition): KnownRun => ({ condition, stratum: '' }));
    const equivalent = (shift: number, scatter: number): boolean | undefined => {
      const row = runs.map(({ condition }, k) =>
        Math.exp((condition === 'b' ? shift : 0) + scatter * [-1, 1, -2, 2][k % 4]),
      );
      return compareChanges([row], runs, [{ from: 'a', to: 'b' }], { margin: 0.05 })[0].rows[0].inference?.equivalent;
    };
    assert.deepEqual([equivalent(0, 0.001), equivalent(0.046, 0.01), equivalent(-0.046, 0.01)], [true, false, false]);
    assert.equal(equivalent(0, 0.1), false);
  });

  it('are told with the scatter within the sides where nothing is inferred', () => {
    const levels = [0.3, 0.31, 0.2, 0.23, 0.21];
    const runs = [...'aabbb'].map((condition): KnownRun => ({ condition, stratum: '' }));
    const spread = (count: number): number | undefined =>
      compareChanges([levels.slice(0, count)], runs.slice(0, count), [{ from: 'a', to: 'b' }], {})[0].rows[0].spread;
    // Sums of squares about the means of ln(level), over their degrees of freedom.
    const squares = (list: readonly number[]): number => {
      const logs = list.map(Math.log);
      const mean = logs.reduce((sum, one) => sum + one, 0) / logs.length;
      return logs.reduce((sum, one) => sum + (one - mean) ** 2, 0);
    };
    const pooled = Math.sqrt((squares(levels.slice(0, 2)) + squares(levels.slice(2))) / 3);
    assert.ok(Math.abs((spread(5) ?? NaN) - pooled) < 1e-12, `${spread(5)} is not ${pooled}`);
    assert.ok(Math.abs((spread(3) ?? NaN) - Math.sqrt(squares(levels.slice(0, 2)))) < 1e-12, `${spread(3)}`);
  });

  it('are nowhere wider by Dunnett’s limit than by Bonferroni’s of the same pooled scatter', () => {
    const [row] = fc.sample(levels, { numRuns: 1, seed: 5 });
    const runs = runsOf(plain).slice(0, 12);
    const changes = all(plain).slice(0, 2);
    const pooled = compareChanges([row.slice(0, 12)], runs, changes, { isPooled: true });
    const [alone] = compareChanges([row.slice(0, 12)], runs, [changes[0]], { isPooled: true, besides: 1 });
    const width = ({ rows }: Comparison): number =>
      Math.log((rows[0].inference?.interval.high ?? NaN) / (rows[0].inference?.interval.low ?? NaN));
    assert.ok(width(pooled[0]) < width(alone) && width(pooled[0]) > 0.8 * width(alone));
  });
});

describe('a power that is uncertain', () => {
  // Speeds that rose from run to run, the power 0.5 with a standard uncertainty of 0.5; computed with numpy and scipy from
  // the model of a steady drift (two variances by quadratic unbiased estimation), and from Welch's.
  const levels = [0.3, 0.262, 0.258, 0.315, 0.268, 0.321, 0.326];
  const speeds = [1.14, 1.16, 1.17, 1.19, 1.22, 1.25, 1.28];
  const logarithms = speeds.map(Math.log);
  const middle = logarithms.reduce((sum, one) => sum + one, 0) / speeds.length;
  const atOneSpeed = levels.map((level, k) => level * Math.exp(-0.5 * (logarithms[k] - middle)));
  const row = (isOrdered: boolean) => {
    const runs = [...'ABBABAA'].map((condition, k): KnownRun => ({
      condition,
      stratum: '',
      place: isOrdered ? k + 1 : undefined,
    }));
    const stated = [{ logarithms, uncertainty: 0.5 }];
    const [found] = compareChanges([atOneSpeed], runs, [{ from: 'A', to: 'B' }], { stated });
    return found.rows[0].inference ?? assert.fail('no inference');
  };
  const near = (found: number, expected: number): void =>
    assert.ok(Math.abs(found / expected - 1) < 1e-9, `${found} is not ${expected}`);

  it('widens by the covariate’s difference as the method takes it, which a trend leaves little of', () => {
    const { standardError, df, ratio, interval } = row(true);
    near(standardError, 0.00869667832059643);
    near(df, 3.4567118831924883);
    near(ratio, 0.8468227405492953);
    // Those of the runs alone: t at the greater degrees of freedom would close them to 0.82532 and 0.86888.
    near(interval.low, 0.8248820265101524);
    near(interval.high, 0.8693470470502404);
  });

  it('never closes the limits, nor lowers p, whatever is stated', () => {
    const runs = [...'ABBABAA'].map((condition, k): KnownRun => ({ condition, stratum: '', place: k + 1 }));
    const by = (uncertainty: number) =>
      compareChanges([atOneSpeed], runs, [{ from: 'A', to: 'B' }], { stated: [{ logarithms, uncertainty }] })[0].rows[0]
        .inference ?? assert.fail('no inference');
    const certain = by(0);
    let before = certain;
    for (const uncertainty of [0.1, 0.3, 1, 3, 10]) {
      const found = by(uncertainty);
      const shade = 1e-12;
      assert.ok(found.interval.low <= certain.interval.low + shade);
      assert.ok(found.interval.high >= certain.interval.high - shade);
      assert.ok(found.p >= certain.p - shade && found.pAlone >= certain.pAlone - shade, `${uncertainty}`);
      assert.ok(found.interval.high >= before.interval.high - shade);
      assert.equal(found.p <= 0.05, found.interval.low > 1 || found.interval.high < 1);
      before = found;
    }
    assert.ok(before.interval.high > certain.interval.high + 0.02);
  });

  it('widens by the difference of the means where the order is not known', () => {
    const { standardError, df } = row(false);
    near(standardError, 0.015563645706359475);
    near(df, 46.99596787718752);
  });
});
