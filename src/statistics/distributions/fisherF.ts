import { requireDf, requireNumber } from './arguments.ts';
import { incompleteBetaAtOdds } from './incompleteBeta.ts';

/**
 * P(F > f) of Fisher's F distribution, the ratio of two independent mean squares, accurate where it is small (Abramowitz
 * and Stegun, 26.6).
 *
 * @param f any number; below 0 the answer is 1, at Infinity 0
 * @param numerator, denominator degrees of freedom, above 0, need not be whole
 * @throws RangeError for arguments out of range
 */
export function fisherFSurvival(f: number, numerator: number, denominator: number): number {
  requireDf('numerator', numerator);
  requireDf('denominator', denominator);
  requireNumber('f', f);
  return f <= 0 ? 1 : incompleteBetaAtOdds(numerator / 2, denominator / 2, (f * numerator) / denominator).upper;
}
