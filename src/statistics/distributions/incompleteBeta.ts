import { relativeDeviance } from './deviance.ts';
import { stirlingError } from './gamma.ts';
import type { TailProbability, Tails } from './incompleteGamma.ts';
import { solveMonotone } from './solve.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';

/**
 * x^a y^b / B(a, b) with y = 1 - x, in Loader's form, which keeps its digits for large a and b.
 */
function betaKernel(a: number, b: number, x: number, y: number): number {
  if (x === 0 || y === 0) return 0;
  const n = a + b;
  const offset = b * x - a * y;
  const exponent =
    a * relativeDeviance((n * x) / a, offset / a) +
    b * relativeDeviance((n * y) / b, -offset / b) +
    (stirlingError(a) + stirlingError(b) - stirlingError(n));
  return Math.sqrt((a * b) / (2 * Math.PI * n)) * expOf(-exponent);
}

/**
 * I_x(a, b) / kernel, by the continued fraction of Didonato & Morris 1992 ("Algorithm 708", eq. 9), Lentz's way;
 * good for x < (a+1)/(a+b+2), where a y - b x + 1 is above 0. Unlike the fraction of DLMF 8.17.22 it never
 * subtracts from 1, which would cost the digits when a is large and y small.
 */
function fraction(a: number, b: number, x: number, y: number): number {
  const lead = a * y - b * x + 1;
  const denominator = (m: number): number => {
    const even = m === 0 ? 0 : (m * (b - m) * x) / (a + 2 * m - 1);
    return m + even + ((a + m) * (lead + m * (1 + y))) / (a + 2 * m + 1);
  };
  let c = denominator(0);
  let product = c;
  let d = 0;
  for (let m = 1; ; m++) {
    const above = (((a + m - 1) * (m * x)) / (a + 2 * m - 1)) * (((a + b + m - 1) * ((b - m) * x)) / (a + 2 * m - 1));
    const below = denominator(m);
    d = 1 / (below + above * d);
    c = below + above / c;
    const factor = c * d;
    product *= factor;
    if (Math.abs(factor - 1) < 3e-16) return 1 / product;
  }
}

/**
 * Regularised incomplete beta function at x: lower = I_x(a, b), upper = I_y(b, a), with y = 1 - x.
 * Relative error about 1e-13 in the smaller tail for shapes up to 1e4, growing with their square root beyond.
 *
 * @param a first shape, above 0
 * @param b second shape, above 0
 * @param x in [0, 1]
 * @param y 1 - x, given too, because near 1 one of them cannot be had from the other without loss
 * @throws RangeError for other arguments
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): Tails {
  if (!(a > 0 && b > 0)) throw new RangeError(`a and b must be above 0, but are ${a} and ${b}`);
  if (!(x >= 0 && y >= 0 && Math.abs(x + y - 1) < 1e-9)) {
    throw new RangeError(`x and y must not be negative and add up to 1, but are ${x} and ${y}`);
  }
  if (x === 0) return { lower: 0, upper: 1 };
  if (y === 0) return { lower: 1, upper: 0 };
  const kernel = betaKernel(a, b, x, y);
  if (x < (a + 1) / (a + b + 2)) {
    const lower = Math.min(1, kernel * fraction(a, b, x, y));
    return { lower, upper: 1 - lower };
  }
  const upper = kernel === 0 ? 0 : Math.min(1, kernel * fraction(b, a, y, x));
  return { lower: 1 - upper, upper };
}

/** As `incompleteBeta` with the shapes a and b, given the `odds` x / y, which may be Infinity. */
export function incompleteBetaAtOdds(a: number, b: number, odds: number): Tails {
  return incompleteBeta(a, b, odds === Infinity ? 1 : odds / (1 + odds), 1 / (1 + odds));
}

/**
 * The odds x / (1 - x) at which a tail of the incomplete beta function has the given probability; odds keep
 * their digits at both ends.
 *
 * @param a first shape, above 0
 * @param b second shape, above 0
 * @returns 0 and Infinity for probabilities of 0 and 1, and for results beyond the range of numbers
 */
export function incompleteBetaInverseOdds(a: number, b: number, { tail, probability }: TailProbability): number {
  if (probability === 0) return tail === 'lower' ? 0 : Infinity;
  if (probability === 1) return tail === 'lower' ? Infinity : 0;
  if (probability > 0.5) {
    const other = { tail: tail === 'lower' ? 'upper' : 'lower', probability: 1 - probability } as const;
    return incompleteBetaInverseOdds(a, b, other);
  }
  const target = logOf(probability);
  const rising = tail === 'lower';
  // In u = ln odds the logarithm of each tail is nearly straight far out.
  const u = solveMonotone(
    (v) => {
      const odds = expOf(v);
      const value = incompleteBetaAtOdds(a, b, odds)[tail];
      const slope = betaKernel(a, b, odds / (1 + odds), 1 / (1 + odds)) / value;
      return { value: logOf(value) - target, slope: rising ? slope : -slope };
    },
    rising,
    logOf(a / b),
    -745,
    709,
  );
  if (u <= -744) return 0;
  return u >= 708.9 ? Infinity : expOf(u);
}
