// Standard uncertainties by their independent inputs (JCGM 100:2008, 5.1 and 5.2): quantities that share an input are
// correlated of themselves, and a difference of a quantity from itself is certain.

/** What one independent input contributes: the sensitivity to it times its own standard uncertainty, in the quantity's unit. */
export interface UncertaintyPart {
  readonly input: string;
  /** With its sign, which correlates quantities that share the input; not a number where nobody knows it. */
  readonly size: number;
  /** Degrees of freedom of the input's own uncertainty. */
  readonly df: number;
}

export type UncertaintyParts = readonly UncertaintyPart[];

/** Below this share of its terms a sum is what rounding left of it. */
const rounding = 1e-12;

/** Parts of a sum of quantities, each times its coefficient: of one input they add up with their signs. */
export function summedParts(
  terms: readonly (readonly [coefficient: number, parts: UncertaintyParts])[],
): UncertaintyParts {
  const sums = new Map<string, UncertaintyPart>();
  for (const [coefficient, parts] of terms)
    for (const { input, size, df } of parts) {
      const [before, more] = [sums.get(input)?.size ?? 0, coefficient * size];
      const sum = before + more;
      const isNothing = Math.abs(sum) <= rounding * Math.abs(more);
      sums.set(input, { input, size: isNothing ? 0 : sum, df });
    }
  return [...sums.values()];
}

/** The combined standard uncertainty u_c, the root of the sum of squares (JCGM 100:2008, 5.1.2). */
export const standardUncertainty = (parts: UncertaintyParts): number => Math.hypot(...parts.map(({ size }) => size));

/** Covariance of two quantities: only what they share counts (JCGM 100:2008, 5.2.2 and F.1.2.3). */
export function covariance(a: UncertaintyParts, b: UncertaintyParts): number {
  const sizes = new Map(b.map(({ input, size }) => [input, size]));
  return a.reduce((sum, { input, size }) => sum + size * (sizes.get(input) ?? 0), 0);
}

/** Effective degrees of freedom by the formula of Welch and Satterthwaite (JCGM 100:2008, G.4.1): u_c⁴ / Σ u_i⁴/ν_i. */
export function effectiveDf(parts: UncertaintyParts): number {
  const sum = parts.reduce((all, { size, df }) => all + (size ** 2) ** 2 / df, 0);
  return sum === 0 ? Infinity : (standardUncertainty(parts) ** 2) ** 2 / sum;
}
