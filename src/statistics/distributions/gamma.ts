import { log1pOf } from '../../numbers/logarithm.ts';

/** Coefficients B_2k / (2k (2k-1)) of Stirling's series, k = 1, 2, ... (Abramowitz & Stegun 6.1.41). */
const stirlingSeries = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156, -3617 / 122400];

/**
 * The error of Stirling's formula for x!, ln(x!) - ln(sqrt(2 pi x) (x/e)^x). With it the densities of the gamma and
 * beta families are formed without the large terms that cancel (Loader 2000, "Fast and accurate computation of
 * binomial probabilities"). Below 16 the step delta(x) = delta(x+1) + (x + 1/2) ln(1 + 1/x) - 1 raises the argument.
 *
 * @param x above 0
 */
export function stirlingError(x: number): number {
  // Whole and half arguments are those of the normal, t and chi-squared distributions, which ask for few of them very often.
  const halves = 2 * x;
  if (x >= raisedBelow || !Number.isInteger(halves)) return stirlingErrorAt(x);
  return (errorsOfHalves[halves] ??= stirlingErrorAt(x));
}

const errorsOfHalves: (number | undefined)[] = [];

/** Arguments below it are raised by steps, for the series to have its digits. */
const raisedBelow = 16;

function stirlingErrorAt(x: number): number {
  let raised = 0;
  let z = x;
  for (; z < raisedBelow; z++) raised += (z + 0.5) * log1pOf(1 / z) - 1;
  const inverse = 1 / z;
  const square = inverse * inverse;
  let sum = 0;
  for (let k = stirlingSeries.length - 1; k >= 0; k--) sum = sum * square + stirlingSeries[k];
  return raised + sum * inverse;
}
