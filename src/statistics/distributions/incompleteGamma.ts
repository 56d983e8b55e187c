import { requireNumber } from './arguments.ts';
import { relativeDeviance } from './deviance.ts';
import { stirlingError } from './gamma.ts';
import { solveMonotone } from './solve.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';

/** The two tails of a distribution at one point; they add up to 1, and each is accurate where it is small. */
export interface Tails {
  readonly lower: number;
  readonly upper: number;
}

/** Which tail a quantile is asked by, and its probability. */
export interface TailProbability {
  readonly tail: 'lower' | 'upper';
  readonly probability: number;
}

/** x^a e^-x / Gamma(a) for a above 0 and x from 0, in Loader's form, which keeps its digits for large a (Loader 2000). */
export function gammaKernel(a: number, x: number): number {
  if (x === 0 || x === Infinity) return 0;
  const exponent = a * relativeDeviance(x / a, (x - a) / a) + stirlingError(a);
  return Math.sqrt(a / (2 * Math.PI)) * expOf(-exponent);
}

/** P(a, x) / kernel, by the series of Abramowitz & Stegun 6.5.29; good for x < a + 1. */
function lowerSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= x / (a + k);
    sum += term;
  }
  return sum;
}

/** Q(a, x) / kernel, by the continued fraction of Abramowitz & Stegun 6.5.31 (Lentz's way); good for x >= a + 1. */
function upperFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = Infinity;
  let d = 1 / b;
  let product = d;
  for (let k = 1; ; k++) {
    const numerator = k * (a - k);
    b += 2;
    d = 1 / (b + numerator * d);
    c = b + numerator / c;
    const factor = c * d;
    product *= factor;
    if (Math.abs(factor - 1) < 3e-16) return product;
  }
}

/**
 * Regularised incomplete gamma functions P(a, x) (lower) and Q(a, x) (upper).
 * Relative error about 1e-13 in the smaller tail for a up to 1e4, growing with sqrt(a) beyond.
 *
 * @param a shape, above 0 and at most 1e12
 * @param x at least 0; Infinity allowed
 * @throws RangeError for other arguments
 */
export function incompleteGamma(a: number, x: number): Tails {
  requireNumber('x', x);
  if (!(a > 0 && a <= 1e12)) throw new RangeError(`a must be above 0 and at most 1e12, but is ${a}`);
  if (x < 0) throw new RangeError(`x must not be negative, but is ${x}`);
  if (x === 0) return { lower: 0, upper: 1 };
  const kernel = gammaKernel(a, x);
  if (x < a + 1) {
    const lower = Math.min(1, kernel * lowerSeries(a, x));
    return { lower, upper: 1 - lower };
  }
  const upper = kernel === 0 ? 0 : Math.min(1, kernel * upperFraction(a, x));
  return { lower: 1 - upper, upper };
}

/**
 * The x at which a tail of the incomplete gamma function has the given probability.
 *
 * @param a shape, above 0
 * @returns 0 and Infinity for probabilities of 0 and 1, and for results beyond the range of numbers
 */
export function incompleteGammaInverse(a: number, { tail, probability }: TailProbability): number {
  if (probability === 0) return tail === 'lower' ? 0 : Infinity;
  if (probability === 1) return tail === 'lower' ? Infinity : 0;
  if (probability > 0.5) {
    // The complement loses nothing here (Sterbenz), and the other tail is the one that is accurate.
    return incompleteGammaInverse(a, { tail: tail === 'lower' ? 'upper' : 'lower', probability: 1 - probability });
  }
  const target = logOf(probability);
  const rising = tail === 'lower';
  // In u = ln x the logarithm of a tail is nearly straight far out, so Newton's steps are few.
  const u = solveMonotone(
    (v) => {
      const x = expOf(v);
      const value = incompleteGamma(a, x)[tail];
      const slope = gammaKernel(a, x) / value;
      return { value: logOf(value) - target, slope: rising ? slope : -slope };
    },
    rising,
    logOf(a),
    -745,
    709,
  );
  return u <= -744 ? 0 : expOf(u);
}
