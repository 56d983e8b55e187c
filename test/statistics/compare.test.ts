import { strict as assert } from 'node:assert';
import { compare } from '../../src/statistics/compare.ts';
import type { Comparison } from '../../src/statistics/comparison.ts';

const a = [0.3, 0.312, 0.305, 0.309];
const b = [0.262, 0.255, 0.27, 0.259];
const abba = { orderA: [1, 4, 6, 7], orderB: [2, 3, 5, 8] };
const codes = ({ notes }: Comparison): string[] => notes.map(({ code }) => code);

describe('compare', () => {
  it('uses Welch by default and says so, with the runs, both levels, the change and its outcome', () => {
    const comparison = compare([{ a, b }], abba);
    assert.equal(comparison.method, 'welch');
    assert.deepEqual([comparison.runsA, comparison.runsB], [4, 4]);
    const [row] = comparison.rows;
    assert.equal(row.outcome, 'lower');
    assert.ok(row.inference && row.ratio && row.a && row.b && row.changeDb && row.powerPercent && row.spread);
    assert.ok(Math.abs(row.ratio - row.b / row.a) < 1e-12);
    assert.ok(Math.abs(row.changeDb - 20 * Math.log10(row.ratio)) < 1e-12);
    assert.ok(Math.abs(row.powerPercent - 100 * (row.ratio ** 2 - 1)) < 1e-12);
    assert.equal(row.inference.excluded.increasePercent, 0);
    assert.ok(Math.abs(row.inference.excluded.reductionPercent - 100 * (1 - row.inference.interval.low)) < 1e-12);
    assert.deepEqual(
      row.sensitivity.map(({ method }) => method),
      ['pooled', 'paired', 'trend'],
    );
    assert.deepEqual(codes(comparison), []);
  });

  it('infers nothing under 3 runs a side, whatever was asked: the ratio stands alone', () => {
    for (const method of ['welch', 'pooled', 'paired', 'trend'] as const) {
      const comparison = compare([{ a: [0.3, 0.31], b: [0.2, 0.21] }], {
        method,
        orderA: [1, 4],
        orderB: [2, 3],
        margin: 0.05,
      });
      assert.equal(comparison.method, 'no inference');
      assert.deepEqual(comparison.notes, [{ code: 'few-runs', runsA: 2, runsB: 2, needed: 3 }]);
      const [row] = comparison.rows;
      assert.equal(row.inference, undefined);
      assert.equal(row.outcome, 'unclear');
      assert.ok(row.changePercent && row.changePercent < -30);
    }
    assert.equal(compare([{ a, b: [0.2] }]).method, 'no inference');
  });

  it('gives one run each an interval from its blocks, and no inference', () => {
    const comparison = compare([{ a: [1], b: [0.9], blocksA: [1, 1.1, 0.9, 1], blocksB: [0.8, 0.85, 0.78] }]);
    assert.equal(comparison.method, 'one run each');
    assert.deepEqual(codes(comparison), ['one-run-each']);
    const { block, inference, outcome } = comparison.rows[0];
    assert.ok(block && block.low < block.ratio && block.ratio < block.high);
    assert.deepEqual([inference, outcome], [undefined, 'unclear']);
    assert.equal(compare([{ a: [1], b: [0.9] }]).rows[0].block, undefined);
  });

  it('falls back to Welch with a reason where the planned method cannot be used', () => {
    const unequal = compare([{ a, b: b.slice(1) }], { method: 'paired' });
    assert.equal(unequal.method, 'welch');
    assert.deepEqual(unequal.notes, [
      { code: 'method-not-possible', method: 'paired', obstacle: 'unequal-counts', runsA: 4, runsB: 3 },
    ]);
    const obstacle = (orderA?: number[], orderB?: number[]): unknown => {
      const { method, notes } = compare([{ a, b }], { method: 'trend', orderA, orderB });
      return [method, notes[0]?.code === 'method-not-possible' && notes[0].obstacle];
    };
    assert.deepEqual(obstacle(), ['welch', 'no-order']);
    assert.deepEqual(obstacle([1, 2, 3, 4], [5, 6, 7, 8]), ['welch', 'one-before-the-other']);
    assert.deepEqual(obstacle([5, 6, 7, 8], [1, 2, 3, 4]), ['welch', 'one-before-the-other']);
    assert.deepEqual(obstacle([1, 2, 3, 4], [4, 6, 7, 8]), ['welch', 'same-place']);
    assert.deepEqual(obstacle(abba.orderA, abba.orderB), ['trend', false]);
  });

  it('warns of an order that lets a drift pass for a change, with its size, unless the trend is taken out', () => {
    const leaning = compare([{ a, b }], { orderA: [1, 2, 3, 4], orderB: [5, 6, 7, 8] });
    assert.deepEqual(leaning.notes, [{ code: 'order-leans', lag: 4 }]);
    assert.deepEqual(codes(compare([{ a, b }], { ...abba, method: 'trend' })), []);
  });

  it('reports a drift that the trend method finds, and takes it out of the ratio', () => {
    const drift = (levels: readonly number[], places: readonly number[]): number[] =>
      levels.map((x, k) => x * Math.exp(0.03 * places[k]));
    const comparison = compare([{ a: drift(a, abba.orderA), b: drift(b, abba.orderB) }], { ...abba, method: 'trend' });
    const { inference } = comparison.rows[0];
    assert.ok(inference?.drift && Math.abs(inference.drift.perRun - 0.03) < 0.005 && inference.drift.p < 0.01);
    assert.deepEqual(codes(comparison).includes('drift-seen'), true);
    const welch = compare([{ a: drift(a, abba.orderA), b: drift(b, abba.orderB) }], abba);
    const note = welch.notes.find(({ code }) => code === 'drift-seen');
    assert.ok(note?.code === 'drift-seen' && note.perRun > 0.025 && note.perRun < 0.035 && note.p < 0.05);
    assert.deepEqual([note.band, note.method], [0, 'welch']);
  });

  it('pairs by the order of the runs and warns where a pair did not follow one another', () => {
    const shuffled = compare([{ a: [a[3], a[0], a[1], a[2]], b }], {
      method: 'paired',
      orderA: [7, 1, 4, 6],
      orderB: abba.orderB,
    });
    const plain = compare([{ a, b }], { method: 'paired', ...abba });
    assert.equal(shuffled.rows[0].inference?.interval.low, plain.rows[0].inference?.interval.low);
    assert.deepEqual(codes(plain), []);
    assert.ok(
      codes(compare([{ a, b }], { method: 'paired', orderA: [1, 2, 3, 4], orderB: [5, 6, 7, 8] })).includes(
        'pairs-not-neighbours',
      ),
    );
  });

  it('adjusts a family by Holm, leaves the primary band alone and widens the simultaneous interval', () => {
    const still = { a, b: [0.306, 0.309, 0.304, 0.311] };
    const faint = { a, b: [0.298, 0.302, 0.295, 0.299] };
    const family = compare([{ a, b }, still, faint]);
    const p = family.rows.map(({ inference }) => inference?.p ?? NaN);
    assert.ok(Math.abs((family.rows[0].inference?.pAdjusted ?? 0) - 3 * p[0]) < 1e-12);
    assert.ok(Math.abs((family.rows[2].inference?.pAdjusted ?? 0) - 2 * p[2]) < 1e-12);
    assert.ok(p[2] < 0.05 && 2 * p[2] > 0.05, 'the example is one that Holm changes');
    assert.equal(family.rows[2].outcome, 'unclear');

    const primary = compare([{ a, b }, still, faint], { primary: 2 });
    assert.equal(primary.rows[2].inference?.pAdjusted, p[2]);
    assert.equal(primary.rows[2].outcome, 'lower');
    assert.ok(Math.abs((primary.rows[0].inference?.pAdjusted ?? 0) - 2 * p[0]) < 1e-12);
    for (const { inference } of family.rows)
      assert.ok(inference && inference.simultaneous.low < inference.interval.low);
    assert.deepEqual(primary.rows[2].inference?.simultaneous, primary.rows[2].inference?.interval);
  });

  it('calls equivalent what lies within the margin, even when a difference is shown', () => {
    const near = { a: [1, 1.002, 0.999, 1.001], b: [0.99, 0.991, 0.989, 0.992] };
    const [row] = compare([near], { margin: 0.05 }).rows;
    assert.deepEqual([row.outcome, row.inference?.direction], ['equivalent', 'lower']);
    assert.equal(compare([near]).rows[0].outcome, 'lower');
    assert.equal(compare([{ a, b: [0.31, 0.29, 0.33, 0.3] }], { margin: 0.02 }).rows[0].outcome, 'unclear');
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
    assert.equal(comparison.rows[1].ratio, undefined);
    assert.equal(comparison.rows[1].outcome, 'unclear');
    assert.equal(comparison.rows[0].inference?.pAdjusted, comparison.rows[0].inference?.p);
  });

  it('finds runs that do not differ at all, and infers nothing from them', () => {
    const comparison = compare([{ a: [0.3, 0.3, 0.3], b: [0.1, 0.1, 0.1] }]);
    assert.equal(comparison.rows[0].inference, undefined);
    assert.deepEqual(codes(comparison), ['no-scatter']);
  });

  it('says where another method would have found otherwise', () => {
    const wander = { a: [1, 1.3, 0.8, 1.1, 0.9], b: [0.95, 1.24, 0.757, 1.05, 0.853] };
    const comparison = compare([wander]);
    assert.equal(comparison.rows[0].outcome, 'unclear');
    assert.deepEqual(comparison.notes, [{ code: 'methods-disagree', band: 0, methods: ['paired'], shown: false }]);
  });

  it('leaves a method without an answer out of what the others say', () => {
    // Each pair differs by the same factor, which leaves pairing nothing to judge by.
    const [row] = compare([{ a: [1, 1.1, 1.3], b: [2, 2.2, 2.6] }]).rows;
    assert.deepEqual(
      row.sensitivity.map(({ method }) => method),
      ['pooled'],
    );
    assert.deepEqual(compare([{ a, b }], { sensitivity: false }).rows[0].sensitivity, []);
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
    assert.throws(() => compare([{ a, b }], { orderA: [1] }), /one place for each run/);
    assert.throws(() => compare([{ a, b }], { margin: -1 }), /margin must be above 0/);
  });
});
