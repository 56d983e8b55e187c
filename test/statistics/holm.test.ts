import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { holm } from '../../src/statistics/holm.ts';

const family = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 });

describe('holm', () => {
  it('adjusts by hand-worked figures, in the order given', () => {
    // Sorted .005 x 4 = .02, .01 x 3 = .03, .03 x 2 = .06, then .04 x 1 = .04, held at .06.
    assert.deepEqual(
      holm([0.01, 0.04, 0.03, 0.005]).map((p) => Number(p.toFixed(12))),
      [0.03, 0.06, 0.06, 0.02],
    );
  });

  it('leaves a family of one as it is, and an empty one empty', () => {
    assert.deepEqual(holm([0.03]), [0.03]);
    assert.deepEqual(holm([]), []);
  });

  it('keeps the order of the p, never lowers one, stays at most 1 and is no harsher than Bonferroni', () => {
    fc.assert(
      fc.property(family, (p) => {
        const adjusted = holm(p);
        p.forEach((value, i) => {
          assert.ok(
            adjusted[i] >= value &&
              adjusted[i] <= 1 &&
              adjusted[i] <= Math.max(value, Math.min(1, p.length * value)) + 1e-15,
          );
          p.forEach((other, j) => assert.ok(value > other || adjusted[i] <= adjusted[j]));
        });
      }),
    );
  });

  it('does not rise when a p falls', () => {
    fc.assert(
      fc.property(family, fc.nat(), fc.double({ min: 0, max: 1, noNaN: true }), (p, at, factor) => {
        const lowered = p.map((value, k) => (k === at % p.length ? value * factor : value));
        const [before, after] = [holm(p), holm(lowered)];
        before.forEach((value, k) => assert.ok(after[k] <= value + 1e-15));
      }),
    );
  });

  it('refuses what is no probability', () => assert.throws(() => holm([0.1, NaN]), /but one is NaN/));
});
