import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { mostConditions, randomisedSeveral, williamsOrder, worstBalance } from '../../src/statistics/severalOrder.ts';

/** How often each condition follows each other one within blocks. */
function followers(order: readonly number[], conditions: number): number[] {
  const counts = new Map<string, number>();
  order.forEach((one, k) => {
    if (k % conditions === 0) return;
    const key = `${order[k - 1]} ${one}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  });
  return [...counts.values()];
}

const blocksOf = (order: readonly number[], conditions: number): number[][] =>
  Array.from({ length: order.length / conditions }, (_, b) => order.slice(b * conditions, (b + 1) * conditions));

const everyOnce = (order: readonly number[], conditions: number): boolean =>
  blocksOf(order, conditions).every((block) => new Set(block).size === conditions);

describe('an order of several conditions', () => {
  it('holds each condition once in each block, and lets a steady drift cancel in an even number of blocks', () => {
    for (let conditions = 3; conditions <= mostConditions; conditions++) {
      for (let runs = 1; runs <= 9; runs++) {
        const order = williamsOrder(runs, conditions);
        assert.equal(order.length, runs * conditions);
        assert.ok(everyOnce(order, conditions), order.join(''));
        if (runs % 2 === 0) assert.ok(Math.abs(worstBalance(order).linear) < 1e-9, order.join(''));
      }
    }
  });

  it('is a Williams design where it has as many blocks: each condition follows each other equally often', () => {
    for (const [conditions, runs] of [
      [3, 6],
      [4, 4],
      [5, 10],
      [6, 6],
      [7, 14],
    ]) {
      const found = followers(williamsOrder(runs, conditions), conditions);
      assert.equal(found.length, conditions * (conditions - 1));
      assert.equal(new Set(found).size, 1, `${conditions} conditions: ${found.join(' ')}`);
    }
    // Three conditions of 6 runs cancel a curved drift, too.
    assert.ok(Math.abs(worstBalance(williamsOrder(6, 3)).quadratic) < 1e-9);
  });

  it('lets a curved drift nearly cancel as well, from six runs of each on', () => {
    for (let conditions = 3; conditions <= 6; conditions++) {
      for (const runs of [6, 8]) {
        const order = williamsOrder(runs, conditions);
        const middle = (order.length - 1) / 2;
        // Of each condition's runs the mean square of their distances from the middle; of all it is near length^2 / 12.
        const squares = Array.from({ length: conditions }, (_, one) =>
          order.reduce((sum, other, k) => sum + (other === one ? (k - middle) ** 2 / runs : 0), 0),
        );
        assert.ok(
          Math.max(...squares) - Math.min(...squares) < order.length / 5,
          `${order.join('')}: ${squares.join()}`,
        );
      }
    }
  });

  it('lets no condition follow another much more often than any other, between blocks as well', () => {
    for (let conditions = 3; conditions <= mostConditions; conditions++) {
      for (let runs = 1; runs <= 9; runs++) {
        const order = williamsOrder(runs, conditions);
        const counts = new Map<string, number>();
        order.slice(1).forEach((one, k) => {
          if (one !== order[k]) counts.set(`${order[k]} ${one}`, (counts.get(`${order[k]} ${one}`) ?? 0) + 1);
        });
        const least = Math.ceil((order.length - 1) / (conditions * (conditions - 1)));
        assert.ok(Math.max(...counts.values()) <= least + 1, order.join(''));
      }
    }
  });

  it('has the balance of the condition that is worst off against the first', () => {
    assert.deepEqual(worstBalance([0, 1, 2]), { linear: 2, quadratic: 0 });
    assert.deepEqual(worstBalance([1, 2, 0]), { linear: -2, quadratic: 0 });
    // Of 1 and 4 against 2: middle 7/3, mean squares 41/18 and 2/18.
    const { linear, quadratic } = worstBalance([0, 1, 2, 0]);
    assert.ok(Math.abs(linear) === 0.5 && Math.abs(quadratic + 39 / 18) < 1e-12, `${linear} ${quadratic}`);
  });

  it('by chance holds each once in each block, repeats with its seed and differs without', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 3, max: 6 }), fc.integer(), (runs, n, seed) => {
        const order = randomisedSeveral(runs, n, seed);
        assert.ok(order.length === runs * n && everyOnce(order, n));
        assert.deepEqual(randomisedSeveral(runs, n, seed), order);
      }),
    );
    assert.ok(new Set(Array.from({ length: 20 }, (_, seed) => randomisedSeveral(6, 3, seed).join(''))).size > 15);
  });
});
