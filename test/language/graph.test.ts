import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { circles, evaluationOrder, type Graph } from '../../src/language/graph.ts';

/** Any few nodes, each with the ones that it needs. */
const graphs: fc.Arbitrary<Graph> = fc
  .array(fc.uniqueArray(fc.nat(8), { maxLength: 3 }), { minLength: 9, maxLength: 9 })
  .chain((uses) => fc.nat(9).map((count) => uses.slice(0, count).map((needs) => needs.filter((need) => need < count))));

/** The nodes that can be reached from one in one step or more. */
function reachable(uses: Graph, from: number): ReadonlySet<number> {
  const found = new Set<number>();
  const queue = [...uses[from]];
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (found.has(node)) continue;
    found.add(node);
    queue.push(...uses[node]);
  }
  return found;
}

describe('evaluationOrder', () => {
  it('takes at each step the first node whose needs are done, and those that never are last', () => {
    fc.assert(
      fc.property(graphs, (uses) => {
        const nodes = [...uses.keys()];
        const expected: number[] = [];
        const isReady = (node: number): boolean =>
          !expected.includes(node) && uses[node].every((need) => expected.includes(need));
        for (let node = nodes.find(isReady); node !== undefined; node = nodes.find(isReady)) expected.push(node);
        expected.push(...nodes.filter((node) => !expected.includes(node)));
        assert.deepEqual(evaluationOrder(uses), expected);
      }),
    );
  });
});

describe('circles', () => {
  it('are the groups of nodes that need each other, in the order of their numbers', () => {
    fc.assert(
      fc.property(graphs, (uses) => {
        const reach = uses.map((_, node) => reachable(uses, node));
        const groups = [...uses.keys()]
          .filter((node) => reach[node].has(node))
          .map((node) => [...uses.keys()].filter((other) => reach[node].has(other) && reach[other].has(node)))
          .filter(([first], i, all) => all.findIndex((group) => group[0] === first) === i);
        const byFirst = [...circles(uses)].sort(([a], [b]) => a - b);
        assert.deepEqual(byFirst, groups);
      }),
      { numRuns: 300 },
    );
  });

  it('are found along a chain of a hundred thousand nodes', () => {
    const count = 100_000;
    const chain = Array.from({ length: count }, (_, node) => [(node + 1) % count]);
    assert.deepEqual(
      circles(chain).map((members) => members.length),
      [count],
    );
  });
});
