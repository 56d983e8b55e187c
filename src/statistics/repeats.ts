import { noncentralTCdf, noncentralTSurvival } from './distributions/noncentralT.ts';
import { normalQuantile, normalUpperQuantile } from './distributions/normal.ts';
import { studentTInterval } from './distributions/studentT.ts';

/** What a test with equal numbers of runs should be able to do. */
export interface TestDesign {
  /** Standard deviation of ln(level) from run to run: 0.04 is about 4 %. Above 0. */
  readonly spread: number;
  /** Chance of showing the change when it is there; default 0.8. */
  readonly power?: number | undefined;
  /** Two-sided confidence; default 0.95. */
  readonly confidence?: number | undefined;
}

/** No plan asks for more runs than this. */
const mostRuns = 10_000;

/**
 * Chance that a two-sided t test on `runs` + `runs` shows a true change, by the noncentral t distribution:
 * df = 2n - 2, delta = |ln ratio| / (s sqrt(2/n)) (Johnson and Welch 1940, Biometrika 31).
 *
 * @param logChange ln of the true ratio B/A
 * @param spread standard deviation of ln(level) from run to run, above 0
 * @param runs of each condition, a whole number from 2
 * @param confidence two-sided, between 0 and 1
 * @throws RangeError for any of these out of range
 */
export function twoSamplePower(logChange: number, spread: number, runs: number, confidence = 0.95): number {
  requirePlan(spread, confidence);
  if (!(runs >= 2 && Number.isInteger(runs)))
    throw new RangeError(`runs must be a whole number of at least 2, but is ${runs}`);
  const df = 2 * runs - 2;
  const delta = Math.abs(logChange) / (spread * Math.sqrt(2 / runs));
  // Beyond 38 standard errors the chance differs from 1 by less than any number can tell.
  if (delta > 38 + studentTInterval(confidence, df)) return 1;
  const reach = studentTInterval(confidence, df);
  return Math.min(1, noncentralTSurvival(reach, df, delta) + noncentralTCdf(-reach, df, delta));
}

/** How many runs of each condition a test needs. */
export interface RunsNeeded {
  readonly runs: number;
  /** The power that this whole number of runs gives. */
  readonly power: number;
}

/**
 * The fewest runs of each condition that show a change with the wanted power.
 *
 * @param changePercent the true change of amplitude: -5 for a reduction of 5 %
 * @returns undefined when more than 10 000 would be needed
 * @throws RangeError for a change of 0, or of -100 % and below
 */
export function runsNeeded(changePercent: number, design: TestDesign): RunsNeeded | undefined {
  if (!(changePercent > -100 && changePercent !== 0 && changePercent < Infinity)) {
    throw new RangeError(`the change must be above -100 % and not 0, but is ${changePercent} %`);
  }
  return runsNeededForLog(Math.log1p(changePercent / 100), design);
}

/**
 * As `runsNeeded`, with the change given as ln of the ratio.
 *
 * @param logChange not 0
 * @throws RangeError for a change of 0 or a design out of range
 */
export function runsNeededForLog(
  logChange: number,
  { spread, power = 0.8, confidence = 0.95 }: TestDesign,
): RunsNeeded | undefined {
  requirePlan(spread, confidence);
  requirePower(power);
  if (!(Math.abs(logChange) > 0)) throw new RangeError(`the change must not be 0, but its logarithm is ${logChange}`);
  // With the scatter known the answer would be 2 (z + z)^2 s^2 / d^2; not knowing it costs a run or two more.
  const z = normalUpperQuantile((1 - confidence) / 2) + normalQuantile(power);
  const guess = Math.ceil(2 * (Math.max(0, z) * (spread / logChange)) ** 2);
  if (!(guess < mostRuns)) return undefined;
  const powerOf = (runs: number): number => twoSamplePower(logChange, spread, runs, confidence);
  let runs = Math.max(2, guess);
  while (powerOf(runs) < power) runs++;
  while (runs > 2 && powerOf(runs - 1) >= power) runs--;
  return { runs, power: powerOf(runs) };
}

/** The smallest change that a number of runs can show, as ln of the ratio and in percent either way. */
export interface SmallestChange {
  readonly logChange: number;
  readonly reductionPercent: number;
  readonly increasePercent: number;
}

/**
 * The smallest true change that `runs` runs of each condition show with the wanted power.
 *
 * @param runs a whole number from 2
 * @throws RangeError for a design out of range, or a power that chance alone gives
 */
export function smallestChange(runs: number, { spread, power = 0.8, confidence = 0.95 }: TestDesign): SmallestChange {
  requirePower(power);
  if (power <= 1 - confidence) throw new RangeError(`power must be above ${1 - confidence}, but is ${power}`);
  let [low, high] = [0, spread];
  while (twoSamplePower(high, spread, runs, confidence) < power) high *= 2;
  for (let k = 0; k < 60 && high - low > 1e-13 * high; k++) {
    const middle = (low + high) / 2;
    if (twoSamplePower(middle, spread, runs, confidence) < power) low = middle;
    else high = middle;
  }
  return { logChange: high, reductionPercent: -100 * Math.expm1(-high), increasePercent: 100 * Math.expm1(high) };
}

/**
 * Expected half-width of the interval of ln(ratio): t s sqrt(2/n).
 *
 * @param runs n of each condition, a whole number from 2
 * @param spread s, standard deviation of ln(level) from run to run, above 0
 * @param confidence two-sided, between 0 and 1
 */
export function intervalHalfWidth(runs: number, spread: number, confidence = 0.95): number {
  requirePlan(spread, confidence);
  return studentTInterval(confidence, 2 * runs - 2) * spread * Math.sqrt(2 / runs);
}

function requirePlan(spread: number, confidence: number): void {
  if (!(spread > 0 && spread < Infinity)) throw new RangeError(`spread must be above 0, but is ${spread}`);
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`confidence must lie between 0 and 1, but is ${confidence}`);
}

function requirePower(power: number): void {
  if (!(power > 0 && power < 1)) throw new RangeError(`power must lie between 0 and 1, but is ${power}`);
}
