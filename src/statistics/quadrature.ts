import { gammaKernel } from './distributions/incompleteGamma.ts';
import { powerOf } from '../numbers/power.ts';
import { cosOf, sinOf } from '../numbers/trigonometry.ts';

/** Nodes and weights of a rule on -1 to 1. */
export interface Rule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

const made = new Map<number, Rule>();

/**
 * Gauss-Legendre rule of n points, exact for polynomials of degree 2n - 1: roots of P_n by Newton's method from the
 * usual first guess (Press et al., "Numerical Recipes", 3rd ed., 4.6).
 *
 * @param n points, at least 1
 */
export function gaussLegendre(n: number): Rule {
  const known = made.get(n);
  if (known !== undefined) return known;
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = cosOf((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 100; round++) {
      let [before, p] = [0, 1];
      for (let k = 0; k < n; k++) [before, p] = [p, ((2 * k + 1) * x * p - k * before) / (k + 1)];
      slope = (n * (x * p - before)) / (x * x - 1);
      const step = p / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  made.set(n, rule);
  return rule;
}

/**
 * Points and weights of the mean over a share that follows the beta distribution, by Gauss-Legendre in the angle: with
 * share = sin^2 u the density is sin^(2a-1) cos^(2b-1), smooth for whole and half numbers.
 *
 * @param a, b parameters, at least 1/2; with one of them 0 all of it is on the other side
 * @param points of the rule, at least 1
 */
export function betaRule(a: number, b: number, points: number): { readonly share: number; readonly weight: number }[] {
  if (a === 0 || b === 0) return [{ share: a === 0 ? 0 : 1, weight: 1 }];
  const { nodes, weights } = gaussLegendre(points);
  const rule = Array.from(nodes, (node, i) => {
    const u = (Math.PI / 4) * (node + 1);
    return {
      share: sinOf(u) ** 2,
      weight: weights[i] * powerOf(sinOf(u), 2 * a - 1) * powerOf(cosOf(u), 2 * b - 1),
    };
  });
  const mass = rule.reduce((sum, { weight }) => sum + weight, 0);
  return rule.map(({ share, weight }) => ({ share, weight: weight / mass }));
}

/**
 * Points and weights of an integral over S = sqrt(chi-square_df / df), between two limits: Gauss-Legendre over 12
 * standard deviations about 1. The weights add to the probability between the limits.
 *
 * @param df degrees of freedom, above 0
 * @param from, to limits of S, from 0 up; the upper one may be infinite
 * @param points of the rule, at least 1
 */
export function chiRule(df: number, from: number, to: number, points = 64): Rule {
  const reach = 12 / Math.sqrt(2 * df);
  const low = Math.max(from, 0, 1 - reach);
  const high = Math.min(to, 1 + reach);
  if (high <= low) return { nodes: new Float64Array(0), weights: new Float64Array(0) };
  const rule = gaussLegendre(points);
  const nodes = rule.nodes.map((node) => low + ((high - low) * (node + 1)) / 2);
  const weights = rule.weights.map(
    (weight, i) => ((high - low) / 2) * weight * (2 / nodes[i]) * gammaKernel(df / 2, (df * nodes[i] ** 2) / 2),
  );
  return { nodes, weights };
}
