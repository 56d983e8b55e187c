import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { abbaOrder, driftBalance, orderText, placesOf, randomisedBlocks } from '../../src/statistics/order.ts';

const balanceOf = (order: ReturnType<typeof abbaOrder>): ReturnType<typeof driftBalance> => {
  const { a, b } = placesOf(order);
  return driftBalance(a, b);
};

describe('run orders', () => {
  it('turn the pairs so that drifts cancel', () => {
    assert.equal(orderText(abbaOrder(3)), 'ABBA BA');
    assert.equal(orderText(abbaOrder(4)), 'ABBA BAAB');
    assert.equal(orderText(abbaOrder(8)), 'ABBA BAAB BAAB ABBA');
  });

  it('ABBA cancels a steady drift, ABBA BAAB a curved one too, AABB neither', () => {
    assert.equal(balanceOf(abbaOrder(2)).steady, 0);
    assert.notEqual(balanceOf(abbaOrder(2)).curved, 0);
    assert.deepEqual(balanceOf(abbaOrder(4)), { steady: 0, curved: 0 });
    assert.equal(driftBalance([1, 2, 3, 4], [5, 6, 7, 8]).steady, 4);
  });

  it('every even number of runs balances a steady drift, and odd ones miss by less than one run', () => {
    for (let n = 1; n <= 30; n++) {
      const { steady } = balanceOf(abbaOrder(n));
      assert.ok(n % 2 === 0 ? Math.abs(steady) < 1e-12 : Math.abs(steady) <= 1, `n ${n}: ${steady}`);
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
    assert.throws(() => abbaOrder(0), /whole number from 1/);
    assert.throws(() => randomisedBlocks(2.5, 1), /whole number/);
  });
});
