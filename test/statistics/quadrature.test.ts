import { strict as assert } from 'node:assert';
import { betaRule, chiRule, gaussLegendre, type Rule } from '../../src/statistics/quadrature.ts';

const close = (found: number, wanted: number, within: number): void =>
  assert.ok(Math.abs(found - wanted) <= within, `${found} is not ${wanted}`);
const over = ({ nodes, weights }: Rule, f: (x: number) => number): number =>
  nodes.reduce((sum, x, i) => sum + weights[i] * f(x), 0);

describe('Gauss’s and Legendre’s rule', () => {
  it('has the points and weights of Abramowitz and Stegun’s table 25.4', () => {
    const tables: Readonly<Record<number, readonly (readonly [number, number])[]>> = {
      1: [[0, 2]],
      2: [
        [0.577350269189626, 1],
        [-0.577350269189626, 1],
      ],
      5: [
        [0.906179845938664, 0.236926885056189],
        [0.538469310105683, 0.478628670499366],
        [0, 0.568888888888889],
        [-0.538469310105683, 0.478628670499366],
        [-0.906179845938664, 0.236926885056189],
      ],
    };
    for (const [n, points] of Object.entries(tables)) {
      const { nodes, weights } = gaussLegendre(Number(n));
      assert.equal(nodes.length, points.length);
      points.forEach(([node, weight], i) => {
        close(nodes[i], node, 1e-15);
        close(weights[i], weight, 1e-15);
      });
    }
  });

  it('is exact for powers up to 2n - 1, and for no higher one that is even', () => {
    for (const n of [1, 2, 3, 8, 17]) {
      for (let power = 0; power < 2 * n; power++)
        close(
          over(gaussLegendre(n), (x) => x ** power),
          power % 2 === 0 ? 2 / (power + 1) : 0,
          1e-14,
        );
      const beyond = over(gaussLegendre(n), (x) => x ** (2 * n));
      if (n < 8) assert.ok(Math.abs(beyond - 2 / (2 * n + 1)) > 1e-6);
    }
  });
});

describe('the rule over a beta distribution', () => {
  it('has its moments, for whole and half numbers', () => {
    for (const [a, b] of [
      [0.5, 0.5],
      [1, 2.5],
      [4, 1.5],
      [3, 6],
    ]) {
      const rule = betaRule(a, b, 40);
      const mean = (power: number): number => rule.reduce((sum, { share, weight }) => sum + weight * share ** power, 0);
      close(mean(0), 1, 1e-13);
      close(mean(1), a / (a + b), 1e-12);
      close(mean(2), (a * (a + 1)) / ((a + b) * (a + b + 1)), 1e-12);
    }
  });

  it('is a single point where one side has nothing', () => {
    assert.deepEqual(betaRule(0, 2, 8), [{ share: 0, weight: 1 }]);
    assert.deepEqual(betaRule(2, 0, 8), [{ share: 1, weight: 1 }]);
  });
});

describe('the rule over the root of chi-square over its degrees of freedom', () => {
  it('adds to the chance between its limits', () => {
    // scipy 1.10.1, differences of stats.chi.cdf(s sqrt(df), df).
    for (const [df, from, to, chance] of [
      [5, 0.5, 1.2, 0.7338056405792884],
      [30, 0, 1, 0.5343462910559904],
      [2, 1, 3, 0.3677560313673557],
    ])
      close(
        over(chiRule(df, from, to), () => 1),
        chance,
        1e-12,
      );
  });

  it('has a mean square of 1 and a mean fourth power of 1 + 2 / df over all of it', () => {
    for (const df of [4, 25, 3000]) {
      const rule = chiRule(df, 0, Infinity);
      close(
        over(rule, () => 1),
        1,
        1e-8,
      );
      close(
        over(rule, (s) => s * s),
        1,
        1e-8,
      );
      close(
        over(rule, (s) => s ** 4),
        1 + 2 / df,
        1e-7,
      );
    }
  });

  it('has no point where the limits leave nothing, and keeps within them', () => {
    assert.equal(chiRule(1e6, 0, 0.9).nodes.length, 0);
    assert.equal(chiRule(5, 2, 2).nodes.length, 0);
    const { nodes, weights } = chiRule(5, 0.8, 1.1, 7);
    assert.deepEqual([nodes.length, weights.length], [7, 7]);
    assert.ok(nodes.every((s) => s > 0.8 && s < 1.1));
  });
});
