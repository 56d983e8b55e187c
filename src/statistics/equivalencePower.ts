import { gammaKernel } from './distributions/incompleteGamma.ts';
import { normalCdf, normalUpperQuantile } from './distributions/normal.ts';
import { studentTUpperQuantile } from './distributions/studentT.ts';
import type { RunsNeeded, TestDesign } from './repeats.ts';

/** No plan asks for more runs than this. */
const mostRuns = 10_000;

/**
 * Chance that two one-sided t tests on `runs` + `runs` call A and B equivalent (Phillips 1990, by one integral over the
 * observed scatter S = s-hat / s: the mean of Phi((L - d)/se - t S) - Phi((-L - d)/se + t S) where that is above 0).
 *
 * @param margin ratios between 1/(1+margin) and 1+margin count as the same; a fraction above 0
 * @param spread standard deviation of ln(level) from run to run, above 0
 * @param runs of each condition, at least 2
 * @param logChange ln of the true ratio, 0 when A and B are the same
 */
export function equivalencePower(
  margin: number,
  spread: number,
  runs: number,
  confidence = 0.95,
  logChange = 0,
): number {
  if (!(margin > 0 && margin < Infinity)) throw new RangeError(`margin must be above 0, but is ${margin}`);
  if (!(spread > 0 && spread < Infinity)) throw new RangeError(`spread must be above 0, but is ${spread}`);
  if (!(confidence > 0.5 && confidence < 1))
    throw new RangeError(`confidence must lie between 0.5 and 1, but is ${confidence}`);
  if (!(runs >= 2 && Number.isInteger(runs)))
    throw new RangeError(`runs must be a whole number of at least 2, but is ${runs}`);
  const df = 2 * runs - 2;
  const t = studentTUpperQuantile(1 - confidence, df);
  const error = spread * Math.sqrt(2 / runs);
  const [half, shift] = [Math.log1p(margin) / error, logChange / error];
  const term = (u: number): number => {
    const s = Math.exp(u);
    const inside = normalCdf(half - shift - t * s) - normalCdf(-half - shift + t * s);
    return 2 * gammaKernel(df / 2, (df * s * s) / 2) * Math.max(0, inside);
  };
  // Above ln(half / t) no scatter is small enough; there the integrand ends, so Simpson's rule is laid up to that point.
  const width = 1 / Math.sqrt(2 * df);
  const high = Math.min(Math.log(half / t), 12 * width);
  const low = Math.min(-40 / df - 12 * width, high - 40 / df);
  return Math.min(1, simpson(term, low, high, 2000));
}

/** The fewest runs of each condition that show equivalence of what is the same; undefined when above 10 000. */
export function runsForEquivalence(
  margin: number,
  { spread, power = 0.8, confidence = 0.95 }: TestDesign,
): RunsNeeded | undefined {
  if (!(power > 0 && power < 1)) throw new RangeError(`power must lie between 0 and 1, but is ${power}`);
  const powerOf = (runs: number): number => equivalencePower(margin, spread, runs, confidence);
  // With the scatter known: both tests must pass, each missing half of what may be missed.
  const z = normalUpperQuantile(1 - confidence) + normalUpperQuantile((1 - power) / 2);
  const guess = Math.ceil(2 * (z * (spread / Math.log1p(margin))) ** 2);
  if (!(guess < mostRuns)) return undefined;
  let runs = Math.max(2, guess);
  while (powerOf(runs) < power) runs++;
  while (runs > 2 && powerOf(runs - 1) >= power) runs--;
  return { runs, power: powerOf(runs) };
}

/** Simpson's rule over an even number of steps. */
function simpson(f: (x: number) => number, low: number, high: number, steps: number): number {
  const step = (high - low) / steps;
  let sum = f(low) + f(high);
  for (let k = 1; k < steps; k++) sum += (k % 2 === 1 ? 4 : 2) * f(low + k * step);
  return (sum * step) / 3;
}
