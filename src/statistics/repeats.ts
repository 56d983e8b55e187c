import type { PlannedContrast } from './contrast.ts';
import { normalQuantile, normalUpperQuantile } from './distributions/normal.ts';
import { chooseMethod, fewestRuns, type Method } from './methods.ts';
import { interleavedOrder, placesOf } from './order.ts';
import { equivalencePower, expectedHalfWidth, power, type Expected } from './power.ts';
import { expm1Of } from '../numbers/exponential.ts';
import { log1pOf } from '../numbers/logarithm.ts';

/** What a test with equal numbers of runs should be able to do. */
export interface TestDesign {
  /** Standard deviation of ln(level) from run to run: 0.04 is about 4 %. Above 0. */
  readonly spread: number;
  /** Chance of showing the change when it is there; default 0.8. */
  readonly power?: number | undefined;
  /** Two-sided confidence of a row's own interval; default 0.95. */
  readonly confidence?: number | undefined;
  /** Whether the runs are made in an interleaved order that is written down, or nothing is known of it. Default interleaved. */
  readonly order?: 'interleaved' | 'unknown' | undefined;
}

/** No plan asks for more runs than this. */
const mostRuns = 10_000;

/** Above this many runs the degrees of freedom that a drift costs no longer matter. */
const manyRuns = 60;

/** How many runs of each condition a test needs, by the method that will judge it. */
export interface RunsNeeded {
  readonly runs: number;
  /** The power that this whole number of runs gives. */
  readonly power: number;
  readonly method: Method;
}

/**
 * The fewest runs of each condition, never under 3, by which `compare` shows a change with the wanted power.
 *
 * @param changePercent the true change of amplitude: -5 for a reduction of 5 %
 * @returns undefined when more than 10 000 would be needed
 * @throws RangeError for a change of 0, or of -100 % and below
 */
export function runsNeeded(changePercent: number, design: TestDesign): RunsNeeded | undefined {
  if (!(changePercent > -100 && changePercent !== 0 && changePercent < Infinity))
    throw new RangeError(`the change must be above -100 % and not 0, but is ${changePercent} %`);
  return runsNeededForLog(log1pOf(changePercent / 100), design);
}

/**
 * As `runsNeeded`, with the change given as ln of the ratio.
 *
 * @param logChange ln of the true ratio B/A, not 0
 * @throws RangeError for a change of 0 or a design out of range
 */
export function runsNeededForLog(logChange: number, design: TestDesign): RunsNeeded | undefined {
  if (!(Math.abs(logChange) > 0)) throw new RangeError(`the change must not be 0, but its logarithm is ${logChange}`);
  const { wanted, confidence } = settled(design);
  const z = normalUpperQuantile((1 - confidence) / 2) + normalQuantile(wanted);
  return fewest(wanted, Math.max(0, z) / Math.abs(logChange), design, (runs) => powerOf(logChange, runs, design));
}

/**
 * The fewest runs of each condition by which two that are the same are shown to be so within a margin.
 *
 * @param margin ratios between 1/(1+margin) and 1+margin count as the same; a fraction above 0
 * @throws RangeError for another margin or a design out of range
 * @returns undefined when more than 10 000 would be needed
 */
export function runsForEquivalence(margin: number, design: TestDesign): RunsNeeded | undefined {
  if (!(margin > 0 && margin < Infinity)) throw new RangeError(`margin must be above 0, but is ${margin}`);
  const { wanted, confidence } = settled(design);
  const z = normalUpperQuantile((1 - confidence) / 2) + normalUpperQuantile((1 - wanted) / 2);
  return fewest(wanted, z / log1pOf(margin), design, (runs) => sameness(margin, runs, design));
}

/**
 * The smallest margin within which `runs` runs of each condition show two that are the same to be so.
 *
 * @param runs a whole number from 3
 * @throws RangeError for a design out of range
 * @returns a fraction
 */
export function smallestMargin(runs: number, design: TestDesign): number {
  const { wanted } = settled(design);
  return expm1Of(least(design.spread, (reach) => sameness(expm1Of(reach), runs, design) >= wanted));
}

const sameness = (margin: number, runs: number, design: TestDesign): number =>
  equivalencePower(planned(runs, design).made, expectation(0, design), margin);

/** The smallest change that a number of runs can show, as ln of the ratio and in percent either way. */
export interface SmallestChange {
  readonly logChange: number;
  readonly reductionPercent: number;
  readonly increasePercent: number;
}

/**
 * The smallest true change that `runs` runs of each condition show with the wanted power.
 *
 * @param runs a whole number from 3
 * @throws RangeError for a design out of range, or a power that chance alone gives
 */
export function smallestChange(runs: number, design: TestDesign): SmallestChange {
  const { wanted, confidence } = settled(design);
  if (wanted <= 1 - confidence) throw new RangeError(`power must be above ${1 - confidence}, but is ${wanted}`);
  const logChange = least(design.spread, (size) => powerOf(size, runs, design) >= wanted);
  return {
    logChange,
    reductionPercent: -100 * expm1Of(-logChange),
    increasePercent: 100 * expm1Of(logChange),
  };
}

/** The least size above 0 that is enough, by halving; what is enough stays so when it grows. */
function least(guess: number, isEnough: (size: number) => boolean): number {
  let [low, high] = [0, guess];
  while (!isEnough(high)) high *= 2;
  for (let k = 0; k < 40 && high - low > 1e-6 * high; k++) {
    const middle = (low + high) / 2;
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Expected half-width of the interval of ln(ratio).
 *
 * @param runs of each condition, a whole number from 3
 * @throws RangeError for a design out of range
 */
export function intervalHalfWidth(runs: number, design: TestDesign): number {
  settled(design);
  return expectedHalfWidth(planned(runs, design).made, expectation(0, design));
}

/**
 * Chance that the comparison shows a true change.
 *
 * @param logChange ln of the true ratio B/A
 * @param runs of each condition, at least 3
 * @throws RangeError for fewer runs
 */
export function powerOf(logChange: number, runs: number, design: TestDesign): number {
  return power(planned(runs, design).made, expectation(logChange, design));
}

function fewest(
  wanted: number,
  reach: number,
  design: TestDesign,
  chance: (runs: number) => number,
): RunsNeeded | undefined {
  // With the scatter known the answer would be 2 (z + z)^2 s^2 / d^2; not knowing it costs a run or two more.
  const guess = Math.ceil(2 * (reach * design.spread) ** 2);
  if (!(guess < mostRuns)) return undefined;
  let runs = Math.max(fewestRuns, guess);
  while (chance(runs) < wanted) if (++runs > mostRuns) return undefined;
  while (runs > fewestRuns && chance(runs - 1) >= wanted) runs--;
  return { runs, power: chance(runs), method: planned(runs, design).method };
}

function planned(runs: number, { order = 'interleaved' }: TestDesign): Known {
  if (!(Number.isInteger(runs) && runs >= fewestRuns))
    throw new RangeError(`runs must be a whole number of at least ${fewestRuns}, but is ${runs}`);
  return known(runs, order);
}

/** A design whose contrast is made, and the method it calls for. */
interface Known {
  readonly made: PlannedContrast;
  readonly method: Method;
}

/** Welch's t of so many runs, without the matrices of a contrast. */
function manyByWelch(runs: number): PlannedContrast {
  const free = runs - 1;
  return {
    residuals: { ownA: free, ownB: free, shared: 0, sharedInA: 0 },
    varianceOf: (a, b) => (a + b) / runs,
    fromSquares: (a, b) => ({ variance: (a + b) / free / runs, df: (free * (a + b) ** 2) / (a * a + b * b) }),
  };
}

const remembered = new Map<string, Known>();

function known(runs: number, order: 'interleaved' | 'unknown'): Known {
  const key = `${runs} ${order}`;
  const found = remembered.get(key);
  if (found !== undefined) return found;
  if (runs > manyRuns) return { made: manyByWelch(runs), method: order === 'interleaved' ? 'curve' : 'welch' };
  const places = order === 'interleaved' ? placesOf(interleavedOrder(runs)) : undefined;
  const { contrast: made, method } = chooseMethod({ runsA: runs, runsB: runs, order: places });
  if (made === undefined) throw new Error(`no contrast of ${runs} runs`);
  const one = { made, method };
  remembered.set(key, one);
  return one;
}

const expectation = (logChange: number, { spread, confidence = 0.95 }: TestDesign): Expected => ({
  logChange,
  spreadA: spread,
  spreadB: spread,
  confidence,
});

function settled({ spread, power: wanted = 0.8, confidence = 0.95 }: TestDesign): {
  readonly wanted: number;
  readonly confidence: number;
} {
  if (!(spread > 0 && spread < Infinity)) throw new RangeError(`spread must be above 0, but is ${spread}`);
  if (!(confidence > 0.5 && confidence < 1))
    throw new RangeError(`confidence must lie between 0.5 and 1, but is ${confidence}`);
  if (!(wanted > 0 && wanted < 1)) throw new RangeError(`power must lie between 0 and 1, but is ${wanted}`);
  return { wanted, confidence };
}
