import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { interleavedOrder, driftBalance, orderText, placesOf, randomisedBlocks } from '../../src/statistics/order.ts';

const balanceOf = (order: ReturnType<typeof interleavedOrder>): ReturnType<typeof driftBalance> => {
  const { a, b } = placesOf(order);
  return driftBalance(a, b);
};

describe('run orders', () => {
  it('turn the pairs so that drifts cancel', () => {
    assert.equal(orderText(interleavedOrder(3)), 'ABBA AB');
    assert.equal(orderText(interleavedOrder(4)), 'ABBA BAAB');
    assert.equal(orderText(interleavedOrder(5)), 'ABBA ABBA AB');
    assert.equal(orderText(interleavedOrder(6)), 'ABBA ABAB BAAB');
    assert.equal(orderText(interleavedOrder(7)), 'ABBA BABA ABAB BA');
    assert.equal(orderText(interleavedOrder(11)), 'ABBA BAAB ABBA BABA ABAB BA');
    assert.equal(orderText(interleavedOrder(8)), 'ABBA BAAB BAAB ABBA');
  });

  it('ABBA cancels a steady drift, ABBA BAAB a curved one too, AABB neither', () => {
    assert.equal(balanceOf(interleavedOrder(2)).linear, 0);
    assert.notEqual(balanceOf(interleavedOrder(2)).quadratic, 0);
    assert.deepEqual(balanceOf(interleavedOrder(4)), { linear: 0, quadratic: 0 });
    assert.equal(driftBalance([1, 2, 3, 4], [5, 6, 7, 8]).linear, 4);
  });

  it('hold as many runs of each, balance a steady drift in multiples of 4, and miss by no more than a third of a run elsewhere', () => {
    for (let n = 2; n <= 30; n++) {
      const { a, b } = placesOf(interleavedOrder(n));
      assert.deepEqual([a.length, b.length], [n, n]);
      const { linear } = balanceOf(interleavedOrder(n));
      assert.ok(n % 4 === 0 ? Math.abs(linear) < 1e-12 : Math.abs(linear) <= 1 / 3 + 1e-12, `n ${n}: ${linear}`);
    }
  });

  it('randomised blocks hold one run of each, repeat with their seed and differ without', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer(), (n, seed) => {
        const order = randomisedBlocks(n, seed);
        assert.equal(order.length, 2 * n);
        for (let k = 0; k < 2 * n; k += 2) assert.notEqual(order[k], order[k + 1]);
        assert.deepEqual(randomisedBlocks(n, seed), order);
      }),
    );
    assert.equal(
      new Set(Array.from({ length: 20 }, (_, seed) => orderText(randomisedBlocks(8, seed)))).size > 10,
      true,
    );
  });

  it('toss a fair coin', () => {
    const straight = Array.from({ length: 500 }, (_, seed) => randomisedBlocks(4, seed))
      .flat()
      .filter((c, k) => k % 2 === 0 && c === 'A');
    assert.ok(Math.abs(straight.length - 1000) < 100, `${straight.length} of 2000`);
  });

  it('refuse a number of runs that is none', () => {
    assert.throws(() => interleavedOrder(0), /whole number from 1/);
    assert.throws(() => randomisedBlocks(2.5, 1), /whole number/);
  });
});
