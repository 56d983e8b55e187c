import type { PlannedContrast } from './contrast.ts';
import { normalCdf } from './distributions/normal.ts';
import { studentTInterval } from './distributions/studentT.ts';
import { betaRule, chiRule } from './quadrature.ts';
import { log1pOf } from '../numbers/logarithm.ts';

/** What a planned test is expected to meet. */
export interface Expected {
  /** ln of the true ratio B/A. */
  readonly logChange: number;
  /** Standard deviation of ln(level) from run to run of each condition; above 0. */
  readonly spreadA: number;
  readonly spreadB: number;
  /** Of the row's own interval, 0.5 to below 1. */
  readonly confidence: number;
}

/**
 * Chance that the interval of a contrast leaves 1 out. Given how the residuals divide between A and B, the statistic is
 * a noncentral t over a factor, and its limit the t at the degrees of freedom of that division; the mean over the
 * division (beta-distributed) and over the scatter (chi-distributed) is taken by quadrature. Exact for Welch's t and for
 * a straight drift taken out with a variance a condition; for a run's own residuals (`hc2`) the conditions' sums of
 * squares stand for them.
 *
 * @returns 0 to 1
 */
export function power(made: PlannedContrast, expected: Expected): number {
  const { limits, df, delta } = planned(made, expected);
  const { nodes, weights } = chiRule(df, 0, Infinity);
  // P(|Z + delta| > c S), Z normal: both tails, the far one as far as a plan can tell.
  const far = (z: number): number => (z < -8 ? 0 : normalCdf(z));
  const chance = (c: number): number =>
    nodes.reduce((sum, s, k) => sum + weights[k] * (normalCdf(delta - c * s) + far(-delta - c * s)), 0);
  return Math.min(1, mean(limits, chance));
}

/**
 * Chance that the interval of a contrast lies within 1/(1 + margin) and 1 + margin (Phillips 1990, with the division of
 * the residuals as in `power`).
 *
 * @param margin a fraction above 0
 */
export function equivalencePower(made: PlannedContrast, expected: Expected, margin: number): number {
  const { limits, df, delta, unit } = planned(made, expected);
  const half = log1pOf(margin) / unit;
  // P(|Z + delta| <= half - c S): no scatter beyond half / c is small enough.
  const chance = (c: number): number => {
    const { nodes, weights } = chiRule(df, 0, half / c);
    const inside = (s: number): number => normalCdf(half - delta - c * s) - normalCdf(-half - delta + c * s);
    return nodes.reduce((sum, s, k) => sum + weights[k] * Math.max(0, inside(s)), 0);
  };
  return Math.min(1, mean(limits, chance));
}

/** Expected half-width of the interval of ln(ratio): the mean of t times the standard error. */
export function expectedHalfWidth(made: PlannedContrast, expected: Expected): number {
  const { limits, df, unit } = planned(made, expected);
  const { nodes, weights } = chiRule(df, 0, Infinity);
  const root = nodes.reduce((sum, s, k) => sum + weights[k] * s, 0);
  return mean(limits, (c) => c * root * unit);
}

/** A limit of the statistic, and the weight of the division of residuals that it belongs to. */
interface Limit {
  readonly limit: number;
  readonly weight: number;
}

const mean = (limits: readonly Limit[], of: (limit: number) => number): number =>
  limits.reduce((sum, { limit, weight }) => sum + weight * of(limit), 0);

interface Planned {
  readonly limits: readonly Limit[];
  /** Degrees of freedom of all residuals together. */
  readonly df: number;
  /** The true change in standard errors, and the standard error itself. */
  readonly delta: number;
  readonly unit: number;
}

const remembered = new WeakMap<PlannedContrast, Map<string, readonly Limit[]>>();

function planned(made: PlannedContrast, expected: Expected): Planned {
  const { spreadA, spreadB, confidence, logChange } = expected;
  const { ownA, ownB, shared } = made.residuals;
  const unit = Math.sqrt(made.varianceOf(spreadA ** 2, spreadB ** 2));
  const delta = Math.abs(logChange) / unit;
  const known = remembered.get(made) ?? new Map<string, readonly Limit[]>();
  remembered.set(made, known);
  const key = `${spreadA / spreadB} ${confidence}`;
  const limits = known.get(key) ?? limitsOf(made, expected);
  known.set(key, limits);
  return { limits, df: ownA + ownB + shared, delta, unit };
}

function limitsOf(made: PlannedContrast, { spreadA, spreadB, confidence }: Expected): Limit[] {
  const { ownA, ownB, shared, sharedInA } = made.residuals;
  const [squareA, squareB] = [spreadA ** 2, spreadB ** 2];
  const variance = made.varianceOf(squareA, squareB);
  const total = ownA + ownB + shared;
  const mixed = sharedInA * squareA + (1 - sharedInA) * squareB;
  // One division needs many points for full accuracy; two of them only what a plan is worth.
  const points = shared === 0 || ownA + ownB === 0 ? 40 : 10;
  return betaRule(shared / 2, (ownA + ownB) / 2, points).flatMap(({ share: common, weight: outer }) =>
    betaRule(ownA / 2, ownB / 2, points).map(({ share, weight }) => {
      const a = (1 - common) * share * squareA + common * sharedInA * mixed;
      const b = (1 - common) * (1 - share) * squareB + common * (1 - sharedInA) * mixed;
      const found = made.fromSquares(a, b);
      const limit = studentTInterval(confidence, found.df) * Math.sqrt((total * found.variance) / variance);
      return { limit, weight: outer * weight };
    }),
  );
}
