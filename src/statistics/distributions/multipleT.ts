import { gaussLegendre, chiRule } from '../quadrature.ts';
import { normalCdf } from './normal.ts';
import { studentTInterval } from './studentT.ts';
import { powerOf } from '../../numbers/power.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';

/** Several t that share one estimate of the scatter and are stated together. */
export type MultipleT =
  /** Each of so many conditions against one baseline, two of which correlate by `correlation` (Dunnett 1955). */
  | { readonly kind: 'dunnett'; readonly changes: number; readonly correlation: number }
  /** Every two of so many conditions (Tukey 1953; Kramer 1956 for unequal numbers of runs). */
  | { readonly kind: 'tukey'; readonly conditions: number };

const reach = 8;
const points = 64;

/**
 * Chance that the largest of the |t| exceeds a limit: for Dunnett's
 * 1 - E_s int phi(z) [Phi((sqrt(r) z + t s) / sqrt(1 - r)) - Phi((sqrt(r) z - t s) / sqrt(1 - r))]^k dz, for Tukey's, q = t sqrt(2),
 * 1 - E_s k int phi(z) [Phi(z) - Phi(z - q s)]^(k - 1) dz, both by quadrature over z and over s, chi / sqrt(df).
 *
 * @param t the limit, at least 0
 * @param df degrees of freedom of the shared scatter
 * @param of what is stated together
 */
export function multipleTSurvival(t: number, df: number, of: MultipleT): number {
  const { nodes: scatters, weights: chances } = chiRule(df, 0, Infinity);
  const rule = gaussLegendre(points);
  const inside = scatters.reduce((sum, s, k) => {
    const at = (z: number): number =>
      of.kind === 'dunnett' ? dunnettAt(z, t * s, of) : tukeyAt(z, t * s, of.conditions);
    const integral = rule.nodes.reduce(
      (total, x, i) => total + rule.weights[i] * reach * density(reach * x) * at(reach * x),
      0,
    );
    return sum + chances[k] * integral;
  }, 0);
  return Math.min(1, Math.max(0, 1 - inside));
}

const density = (z: number): number => expOf((-z * z) / 2) / Math.sqrt(2 * Math.PI);

function dunnettAt(z: number, limit: number, { changes, correlation }: MultipleT & { kind: 'dunnett' }): number {
  const [along, across] = [Math.sqrt(correlation) * z, Math.sqrt(1 - correlation)];
  return powerOf(normalCdf((along + limit) / across) - normalCdf((along - limit) / across), changes);
}

const tukeyAt = (z: number, limit: number, conditions: number): number =>
  conditions * powerOf(normalCdf(z) - normalCdf(z - Math.SQRT2 * limit), conditions - 1);

const remembered = new Map<string, number>();

/**
 * The limit that the largest of the |t| exceeds with a given chance.
 *
 * @param chance above 0 and below 1
 * @param df degrees of freedom of the shared scatter
 * @param of what is stated together
 */
export function multipleTLimit(chance: number, df: number, of: MultipleT): number {
  const key = JSON.stringify([chance, df, of]);
  const known = remembered.get(key);
  if (known !== undefined) return known;
  // Between one t and Bonferroni's limit for all of them; regula falsi in Illinois form on the logarithms of the chances.
  const count = of.kind === 'dunnett' ? of.changes : (of.conditions * (of.conditions - 1)) / 2;
  let [low, high] = [
    studentTInterval(1 - chance, df) * (1 - 1e-9),
    studentTInterval(1 - chance / count, df) * (1 + 1e-9),
  ];
  const above = (t: number): number => logOf(multipleTSurvival(t, df, of) / chance);
  let [atLow, atHigh] = [above(low), above(high)];
  let found = high;
  for (let k = 0; k < 60 && high - low > 1e-11 * high; k++) {
    const next = (low * atHigh - high * atLow) / (atHigh - atLow);
    const at = above(next);
    if (Math.abs(next - found) < 1e-11 * high) break;
    found = next;
    if (at > 0) [low, atLow, atHigh] = [next, at, atHigh / 2];
    else [high, atHigh, atLow] = [next, at, atLow / 2];
  }
  remembered.set(key, found);
  return found;
}
