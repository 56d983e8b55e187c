import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { equivalence } from '../../src/statistics/equivalence.ts';

const estimate = fc.record({
  difference: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
  standardError: fc.double({ min: 1e-4, max: 0.2, noNaN: true }),
  df: fc.double({ min: 2, max: 40, noNaN: true }),
});

describe('equivalence', () => {
  it('holds when the 90 % interval lies inside the zone, and then p is below 5 %', () => {
    const close = equivalence({ difference: 0.01, standardError: 0.01, df: 6 }, 0.05, 0.95);
    assert.ok(close.equivalent && close.p < 0.05);
    assert.equal(close.interval.low.toFixed(4), '0.9906');
    const wide = equivalence({ difference: 0.01, standardError: 0.03, df: 6 }, 0.05, 0.95);
    assert.ok(!wide.equivalent && wide.p > 0.05);
  });

  it('is the same seen from A and from B', () => {
    fc.assert(
      fc.property(estimate, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (e, margin) => {
        const [one, other] = [
          equivalence(e, margin, 0.95),
          equivalence({ ...e, difference: -e.difference }, margin, 0.95),
        ];
        assert.ok(Math.abs(one.p - other.p) < 1e-9);
        assert.equal(one.equivalent, other.equivalent);
      }),
    );
  });

  it('says the same by its interval and by its two tests', () => {
    fc.assert(
      fc.property(estimate, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (e, margin) => {
        const { equivalent, p } = equivalence(e, margin, 0.95);
        if (Math.abs(p - 0.05) > 1e-9) assert.equal(equivalent, p < 0.05);
      }),
    );
  });

  it('a wider margin never undoes it', () => {
    fc.assert(
      fc.property(estimate, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (e, margin) => {
        if (equivalence(e, margin, 0.95).equivalent) assert.ok(equivalence(e, 2 * margin, 0.95).equivalent);
      }),
    );
  });

  it('refuses a confidence that is no more than a guess, or certain', () => {
    for (const confidence of [0.5, 1, 95, NaN])
      assert.throws(
        () => equivalence({ difference: 0, standardError: 1, df: 3 }, 0.1, confidence),
        new RegExp(`confidence must lie between 0.5 and 1, but is ${confidence}`),
      );
    assert.throws(
      () => equivalence({ difference: 0, standardError: 1, df: 3 }, Infinity, 0.9),
      /margin must be above 0/,
    );
  });

  it('states the zone it holds against: 1/1.25 to 1.25 for a margin of a quarter, and the margin', () => {
    const { margin, zone } = equivalence({ difference: 0, standardError: 0.01, df: 6 }, 0.25, 0.9);
    assert.deepEqual([margin, zone], [0.25, { low: 0.8, high: 1.25 }]);
  });

  it('refuses a margin of nothing', () =>
    assert.throws(() => equivalence({ difference: 0, standardError: 1, df: 3 }, 0, 0.95), /margin must be above 0/));
});
