import { strict as assert } from 'node:assert';
import { compare } from '../../src/statistics/compare.ts';
import type { ComparisonRow } from '../../src/statistics/comparison.ts';
import { driftNotes, rowNotes } from '../../src/statistics/notes.ts';

const order = { a: [1, 4, 6, 7], b: [2, 3, 5, 8] };
const levels = { a: [1, 1.04, 0.98, 1.01], b: [0.9, 0.93, 0.95, 0.91] };
const [row] = compare([levels], { orderA: order.a, orderB: order.b }).rows;
const withDrift = (p: number): ComparisonRow =>
  row.inference === undefined ? row : { ...row, inference: { ...row.inference, drift: { perRun: -0.01, p } } };

describe('driftNotes', () => {
  it('say nothing where the order is not known', () =>
    assert.deepEqual(driftNotes('welch', undefined, [withDrift(0)], 0.95), []));

  it('name the lag of B behind A where it is more than half a run, either way, unless the trend is taken out', () => {
    const lean = (a: number[], b: number[], method: 'welch' | 'trend' = 'welch'): unknown =>
      driftNotes(method, { a, b }, [], 0.95);
    assert.deepEqual(lean([1, 2], [3, 4]), [{ code: 'order-leans', lag: 2 }]);
    assert.deepEqual(lean([3, 4], [1, 2]), [{ code: 'order-leans', lag: -2 }]);
    assert.deepEqual(lean([1, 4], [2, 4]), []);
    assert.deepEqual(lean([1, 2], [3, 4], 'trend'), []);
  });

  it('tell a drift whose p, adjusted for the bands that have one, is alpha or below', () => {
    const notes = (...p: number[]): unknown[] => driftNotes('trend', order, [row, ...p.map(withDrift)].slice(1), 0.75);
    assert.deepEqual(notes(0.25), [{ code: 'drift-seen', band: 0, perRun: -0.01, p: 0.25, method: 'trend' }]);
    assert.deepEqual(notes(0.26), []);
    assert.deepEqual(notes(0.2, 0.9), []);
    assert.deepEqual(notes(0.9, 0.1), [{ code: 'drift-seen', band: 1, perRun: -0.01, p: 0.2, method: 'trend' }]);
  });

  it('warn of pairs whose runs did not follow one another, whatever order they are listed in', () => {
    const codes = (method: 'paired' | 'welch', a: number[], b: number[]): string[] =>
      driftNotes(method, { a, b }, [], 0.95).map(({ code }) => code);
    assert.deepEqual(codes('paired', [4, 1], [3, 2]), []);
    assert.deepEqual(codes('paired', [1, 5], [4, 2]), []);
    assert.deepEqual(codes('paired', [1, 4], [3, 2]), []);
    assert.deepEqual(codes('paired', [1, 3, 6], [4, 2, 5]), []);
    assert.deepEqual(codes('paired', [1, 2, 7, 8], [3, 4, 5, 6]), ['pairs-not-neighbours']);
    assert.deepEqual(codes('welch', [1, 2, 7, 8], [3, 4, 5, 6]), []);
  });
});

describe('rowNotes', () => {
  it('say why there is no inference', () => {
    const none = { ...row, inference: undefined };
    assert.deepEqual(rowNotes({ ...none, ratio: undefined }, 2, 0.95), [{ code: 'not-a-level', band: 2 }]);
    assert.deepEqual(rowNotes(none, 1, 0.95), [{ code: 'no-scatter', band: 1 }]);
  });

  it('name the methods that would find otherwise, and which way', () => {
    const { inference } = row;
    assert.ok(inference);
    const found = (p: number, ...others: number[]): unknown => {
      const sensitivity = others.map((other, k) => ({
        method: (['pooled', 'paired', 'trend'] as const)[k],
        ratio: 1,
        interval: inference.interval,
        p: other,
      }));
      return rowNotes({ ...row, inference: { ...inference, p }, sensitivity }, 0, 0.75);
    };
    assert.deepEqual(found(0.25, 0.1, 0.25), []);
    assert.deepEqual(found(0.25, 0.1, 0.26, 0.9), [
      { code: 'methods-disagree', band: 0, methods: ['paired', 'trend'], shown: true },
    ]);
    assert.deepEqual(found(0.26, 0.25, 0.9), [
      { code: 'methods-disagree', band: 0, methods: ['pooled'], shown: false },
    ]);
  });
});
