import { claimedBothWays, claimZone, type BothWays, type Claim } from './claimForm.ts';
import type { Comparison, ComparisonRow } from './comparison.ts';
import type { RatioInterval } from './estimate.ts';
import { runsNeededForLog } from './repeats.ts';

export type Judgement = 'supported' | 'contradicted' | 'not shown';

/** The strongest plain statement of its kind that the interval carries. */
export interface Strongest {
  readonly direction: 'reduction' | 'increase';
  /** Whole percent of amplitude, or tenths below 1 %; rounded towards nothing. */
  readonly percent: number;
}

/** Why a row carries no inference. */
export type NoInference = 'not-a-level' | 'one-run-each' | 'few-runs' | 'no-scatter';

/** What the verdict rests on: the guards, or where the interval lies. */
export type Reason =
  | 'guarded'
  | 'inside'
  | 'outside'
  /** A reduction or an increase is shown, but not whether it has the size claimed. */
  | 'reduction-shown'
  | 'increase-shown'
  | 'no-change-shown';

/** What would settle a claim that is not shown. */
export type Settle =
  | { readonly by: 'removing-guards' }
  /** The change found lies too close to the claimed value for any number of runs. */
  | { readonly by: 'nothing' }
  /** Runs of each condition, if the change is as found (80 % power), and what they would do to the claim. */
  | { readonly by: 'runs'; readonly runs: number; readonly way: 'support' | 'contradict' };

export interface Verdict {
  readonly verdict: Judgement;
  /** Ratios for which the claim is true. */
  readonly zone: RatioInterval;
  /** The interval that was judged; undefined when the data allow none. */
  readonly interval: RatioInterval | undefined;
  readonly changePercent: number | undefined;
  /** Ends of the interval as changes in percent of amplitude. */
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  /** Why the numbers themselves forbid a verdict. */
  readonly noInference: NoInference | undefined;
  readonly reason: Reason;
  readonly strongest: Strongest | undefined;
  /** Undefined of a claim that is supported or contradicted. */
  readonly settle: Settle | undefined;
  /** The claimed and the found change as amplitude and as power; undefined of a claim without a number. */
  readonly bothWays: { readonly claimed: BothWays; readonly found: BothWays } | undefined;
}

/**
 * Judges a claim by one row of a comparison. Supported when the whole interval lies where the claim is true,
 * contradicted when none of it does, else not shown; a guard forces "not shown" whatever the numbers say.
 * At exactly the claimed value "not shown" is the right answer 95 times of 100.
 *
 * @param band index of the row
 * @param forbidden whether reasons outside the numbers forbid a verdict: a failed check, a metric that was not planned
 * @throws RangeError for a row that is not there, or a claim that no level can meet
 */
export function judge(claim: Claim, comparison: Comparison, band: number, forbidden = false): Verdict {
  if (!(band in comparison.rows)) throw new RangeError(`there is no band ${band}`);
  const row = comparison.rows[band];
  const zone = claimZone(claim);
  const interval = row.inference?.interval;
  const noInference = withheld(comparison, row);
  const guarded = forbidden || noInference !== undefined;
  const verdict = guarded || interval === undefined ? 'not shown' : judgeInterval(zone, interval);
  return {
    verdict,
    zone,
    interval,
    changePercent: row.changePercent,
    lowPercent: interval && 100 * (interval.low - 1),
    highPercent: interval && 100 * (interval.high - 1),
    noInference,
    reason: guarded ? 'guarded' : reasonOf(verdict, interval),
    strongest: interval && !guarded ? strongestOf(interval) : undefined,
    settle: verdict === 'not shown' ? settleOf(guarded, zone, row, comparison) : undefined,
    bothWays: bothWays(claim, row),
  };
}

function withheld({ method }: Comparison, row: ComparisonRow): NoInference | undefined {
  if (row.inference) return undefined;
  if (row.ratio === undefined) return 'not-a-level';
  if (method === 'one run each') return 'one-run-each';
  return method === 'no inference' ? 'few-runs' : 'no-scatter';
}

/**
 * Where an interval of the ratio B/A lies against the ratios for which a claim is true: all inside is "supported", all
 * outside "contradicted", else "not shown".
 */
export function judgeInterval(zone: RatioInterval, { low, high }: RatioInterval): Judgement {
  if (low >= zone.low && high <= zone.high) return 'supported';
  return low > zone.high || high < zone.low ? 'contradicted' : 'not shown';
}

function reasonOf(verdict: Judgement, interval: RatioInterval | undefined): Reason {
  if (verdict === 'supported') return 'inside';
  if (verdict === 'contradicted') return 'outside';
  if (interval && interval.high < 1) return 'reduction-shown';
  return interval && interval.low > 1 ? 'increase-shown' : 'no-change-shown';
}

function strongestOf({ low, high }: RatioInterval): Strongest | undefined {
  const direction = high < 1 ? 'reduction' : 'increase';
  const size = high < 1 ? 100 * (1 - high) : 100 * (low - 1);
  if (!(size > 0)) return undefined;
  // A shade is given back before rounding down, so that 10 % does not become 9 % by the last digit.
  return { direction, percent: size >= 1 ? Math.floor(size + 1e-9) : Math.floor(10 * size + 1e-9) / 10 };
}

/** More runs than anyone makes; beyond it, more runs are no advice. */
const mostAdvised = 200;

function settleOf(guarded: boolean, zone: RatioInterval, row: ComparisonRow, { confidence }: Comparison): Settle {
  if (guarded) return { by: 'removing-guards' };
  const runs = settlingRuns(zone, row, confidence);
  if (runs === undefined || runs > mostAdvised) return { by: 'nothing' };
  const inside = row.ratio !== undefined && row.ratio >= zone.low && row.ratio <= zone.high;
  return { by: 'runs', runs, way: inside ? 'support' : 'contradict' };
}

/** Runs that would put the interval clear of the nearest end of the zone, if the change is as found. */
function settlingRuns(zone: RatioInterval, row: ComparisonRow, confidence: number): number | undefined {
  if (row.ratio === undefined || row.spread === undefined || row.spread <= 0) return undefined;
  const at = Math.log(row.ratio);
  const ends = [zone.low, zone.high].filter((end) => end > 0 && end < Infinity);
  const distance = Math.min(...ends.map((end) => Math.abs(at - Math.log(end))));
  if (distance === 0) return undefined;
  return runsNeededForLog(distance, { spread: row.spread, confidence })?.runs;
}

function bothWays(claim: Claim, { changePercent, powerPercent }: ComparisonRow): Verdict['bothWays'] {
  const claimed = claimedBothWays(claim);
  if (claimed === undefined || changePercent === undefined || powerPercent === undefined) return undefined;
  return { claimed, found: { amplitudePercent: changePercent, powerPercent } };
}
