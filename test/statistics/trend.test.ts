import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { trend } from '../../src/statistics/trend.ts';

const [orderA, orderB] = [
  [1, 4, 6, 7],
  [2, 3, 5, 8],
];
const value = fc.double({ min: -3, max: 3, noNaN: true });
const side = fc.array(value, { minLength: 4, maxLength: 4 });

describe('trend', () => {
  it('fits what was built from a change and a drift', () => {
    const residual = [0.01, -0.01, -0.01, 0.01];
    const a = orderA.map((place, k) => 2 + 0.1 * place + residual[k]);
    const b = orderB.map((place) => 2 + 0.1 * place - 0.3);
    const fit = trend(a, b, orderA, orderB);
    assert.ok(fit && fit.df === 5);
    assert.ok(Math.abs(fit.difference + 0.3) < 0.003 && Math.abs(fit.drift.slope - 0.1) < 0.003);
    assert.ok(fit.drift.p < 1e-4);
  });

  it('takes out any drift, which shows in the slope and in nothing else', () => {
    fc.assert(
      fc.property(side, side, value, (a, b, slope) => {
        const plain = trend(a, b, orderA, orderB);
        const drifted = trend(
          a.map((level, k) => level + slope * orderA[k]),
          b.map((level, k) => level + slope * orderB[k]),
          orderA,
          orderB,
        );
        if (plain === undefined || drifted === undefined || plain.standardError < 1e-6) return;
        assert.ok(Math.abs(drifted.difference - plain.difference) < 1e-9);
        assert.ok(Math.abs(drifted.standardError / plain.standardError - 1) < 1e-6);
        assert.ok(Math.abs(drifted.drift.slope - plain.drift.slope - slope) < 1e-9);
        assert.ok(Math.abs(drifted.drift.standardError / plain.drift.standardError - 1) < 1e-6);
      }),
    );
  });

  it('needs 4 runs, one of them on each side, and a residual', () => {
    assert.equal(trend([1], [2, 3], [1], [2, 3]), undefined);
    assert.equal(trend([], [2, 3, 5, 1], [], [2, 3, 4, 5]), undefined);
    assert.equal(trend([2, 3, 5, 1], [], [2, 3, 4, 5], []), undefined);
    assert.equal(trend([1, 2], [4, 5], [1, 2], [3, 4]), undefined, 'a perfect line leaves no residual');
    assert.equal(trend([1], [2, 3, 5], [1], [2, 3, 4])?.df, 1);
  });

  it('cannot tell drift from change when each condition sits at one place', () => {
    assert.equal(trend([1, 2, 3], [4, 5, 7], [1, 1, 1], [2, 2, 2]), undefined);
    assert.equal(trend([1, 2, 3], [4, 5, 7], [1, 1, 1 + 1e-9], [2, 2, 2]), undefined);
  });

  it('refuses runs without a place', () => {
    assert.throws(
      () => trend([1, 2], [3, 4], [1], [2, 3]),
      /an order number is needed for each run: 1 \+ 2 for 2 \+ 2/,
    );
    assert.throws(() => trend([1, 2], [3, 4], [1, 2], [3]), /2 \+ 1 for 2 \+ 2/);
  });
});
