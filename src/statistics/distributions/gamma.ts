import { requireNumber } from './arguments.ts';

const lnSqrt2Pi = 0.9189385332046727;
const oneMinusEuler = 0.42278433509846714;

/** Coefficients B_2k / (2k (2k-1)) of Stirling's series, k = 1, 2, ... (Abramowitz & Stegun 6.1.41). */
const stirlingSeries = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156, -3617 / 122400];

/** zeta(k) - 1 for k = 2, 3, ... 30. */
const zetaMinusOne = [
  0.6449340668482264, 0.2020569031595943, 0.08232323371113819, 0.03692775514336993, 0.01734306198444914,
  0.008349277381922827, 0.00407735619794434, 0.0020083928260822143, 0.0009945751278180853, 0.0004941886041194645,
  0.0002460865533080483, 0.00012271334757848915, 6.124813505870483e-5, 3.058823630702049e-5, 1.528225940865187e-5,
  7.637197637899763e-6, 3.81729326499984e-6, 1.908212716553939e-6, 9.539620338727962e-7, 4.769329867878064e-7,
  2.38450502727733e-7, 1.1921992596531106e-7, 5.960818905125948e-8, 2.980350351465228e-8, 1.490155482836504e-8,
  7.45071178983543e-9, 3.725334024788457e-9, 1.862659723513049e-9, 9.313274324196682e-10,
];

/**
 * The error of Stirling's formula for x!, ln(x!) - ln(sqrt(2 pi x) (x/e)^x), for x > 0.
 *
 * With it the densities of the gamma and beta families are formed without the large terms that cancel
 * (Loader 2000, "Fast and accurate computation of binomial probabilities"). Below 16 the step
 * delta(x) = delta(x+1) + (x + 1/2) ln(1 + 1/x) - 1 raises the argument.
 */
export function stirlingError(x: number): number {
  let raised = 0;
  let z = x;
  for (; z < 16; z++) raised += (z + 0.5) * Math.log1p(1 / z) - 1;
  const inverse = 1 / z;
  const square = inverse * inverse;
  let sum = 0;
  for (let k = stirlingSeries.length - 1; k >= 0; k--) sum = sum * square + stirlingSeries[k];
  return raised + sum * inverse;
}

/** ln Gamma(2 + z) for |z| <= 1/2, by its Taylor series about 2, which keeps the relative accuracy at the zero. */
function lnGammaNearTwo(z: number): number {
  let sum = 0;
  for (let k = zetaMinusOne.length - 1; k >= 0; k--) sum = zetaMinusOne[k] / (k + 2) - sum * z;
  return z * (oneMinusEuler + sum * z);
}

/**
 * Natural logarithm of the gamma function, for x > 0.
 *
 * @returns ln Gamma(x); Infinity at 0 and at Infinity
 * @throws RangeError for a negative x or NaN
 */
export function lnGamma(x: number): number {
  requireNumber('x', x);
  if (x < 0) throw new RangeError(`x must not be negative, but is ${x}`);
  if (x === 0 || x === Infinity) return Infinity;
  if (x < 0.5) return lnGamma(x + 1) - Math.log(x);
  if (x < 1.5) return lnGammaNearTwo(x - 1) - Math.log1p(x - 1);
  if (x <= 2.5) return lnGammaNearTwo(x - 2);
  return stirlingError(x) + (x - 0.5) * Math.log(x) - x + lnSqrt2Pi;
}
