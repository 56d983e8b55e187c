import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { compare } from '../../scripts/simulate/compareTwo.ts';
import type { Inference } from '../../src/statistics/comparison.ts';

const level = fc.double({ min: 0.05, max: 20, noNaN: true });
const runs = fc.array(level, { minLength: 4, maxLength: 4 });
const order = { order: { a: [1, 4, 6, 7], b: [2, 3, 5, 8] } };
const method = fc.constantFrom(undefined, 'paired' as const, 'trend' as const);
const close = (got: number, want: number, tolerance = 1e-9): void =>
  assert.ok(Math.abs(got - want) <= tolerance * Math.max(1e-3, Math.abs(want)), `${got}, wanted ${want}`);

function inferenceOf(
  a: readonly number[],
  b: readonly number[],
  options: Parameters<typeof compare>[1],
): Inference | undefined {
  return compare([{ a, b }], options).rows[0].inference;
}

describe('the laws of a comparison', () => {
  it('exchanging A and B turns the ratio and its interval over', () => {
    fc.assert(
      fc.property(runs, runs, method, (a, b, method) => {
        const there = inferenceOf(a, b, { ...order, method, margin: 0.1 });
        const back = inferenceOf(b, a, { order: { a: order.order.b, b: order.order.a }, method, margin: 0.1 });
        if (!there || !back) return assert.equal(there, back);
        close(there.ratio * back.ratio, 1);
        close(there.interval.low * back.interval.high, 1);
        close(there.p, back.p, 1e-7);
        assert.equal(there.equivalent, back.equivalent);
      }),
    );
  });

  it('the unit of the levels does not matter', () => {
    fc.assert(
      fc.property(runs, runs, method, fc.double({ min: 1e-3, max: 1e4, noNaN: true }), (a, b, method, unit) => {
        const one = inferenceOf(a, b, { ...order, method });
        const other = inferenceOf(
          a.map((x) => unit * x),
          b.map((x) => unit * x),
          { ...order, method },
        );
        if (!one || !other || one.standardError < 1e-9) return;
        close(one.interval.low, other.interval.low, 1e-7);
        close(one.p, other.p, 1e-6);
      }),
    );
  });

  it('a common factor on B moves the ratio by that factor and leaves the relative width', () => {
    fc.assert(
      fc.property(runs, runs, method, fc.double({ min: 0.2, max: 5, noNaN: true }), (a, b, method, factor) => {
        const one = inferenceOf(a, b, { ...order, method });
        const other = inferenceOf(
          a,
          b.map((x) => factor * x),
          { ...order, method },
        );
        if (!one || !other || one.standardError < 1e-9) return;
        close(other.ratio, one.ratio * factor);
        close(other.interval.high / other.interval.low, one.interval.high / one.interval.low, 1e-6);
      }),
    );
  });

  it('the interval widens with the confidence and always holds the ratio', () => {
    fc.assert(
      fc.property(runs, runs, method, (a, b, method) => {
        const widths = [0.8, 0.9, 0.95, 0.99].map((confidence) => {
          const inference = inferenceOf(a, b, { ...order, method, confidence });
          if (!inference) return 0;
          assert.ok(inference.interval.low <= inference.ratio && inference.ratio <= inference.interval.high);
          return inference.interval.high / inference.interval.low;
        });
        for (let k = 1; k < widths.length; k++) assert.ok(widths[k] >= widths[k - 1]);
      }),
    );
  });

  it('p is below alpha exactly when the interval leaves out 1', () => {
    fc.assert(
      fc.property(runs, runs, method, (a, b, method) => {
        const inference = inferenceOf(a, b, { ...order, method });
        if (!inference || Math.abs(inference.p - 0.05) < 1e-9) return;
        const { low, high } = inference.interval;
        assert.equal(inference.p < 0.05, low > 1 || high < 1);
      }),
    );
  });

  it('the trend method is blind to a steady drift, whatever the order', () => {
    fc.assert(
      fc.property(runs, runs, fc.double({ min: -0.1, max: 0.1, noNaN: true }), (a, b, drift) => {
        const drifted = (levels: readonly number[], places: readonly number[]): number[] =>
          levels.map((level, k) => level * Math.exp(drift * places[k]));
        const plain = inferenceOf(a, b, { ...order, method: 'trend' });
        const moved = inferenceOf(drifted(a, order.order.a), drifted(b, order.order.b), { ...order, method: 'trend' });
        if (!plain || !moved || plain.standardError < 1e-9) return;
        close(moved.ratio, plain.ratio, 1e-7);
        close(moved.interval.low, plain.interval.low, 1e-6);
      }),
    );
  });
});
