import { claimedBothWays, claimZone, type BothWays, type Claim } from './claimForm.ts';
import type { RatioInterval } from './estimate.ts';
import { runsNeededForLog } from './repeats.ts';
import { changePercent, powerPercent } from './summary.ts';
import { powerOf } from '../numbers/power.ts';
import { logOf } from '../numbers/logarithm.ts';
import type { OrderReason } from './sequence.ts';

export type Judgement = 'supported' | 'contradicted' | 'not shown';

/** The strongest plain statement of its kind that the interval carries. */
export interface Strongest {
  readonly direction: 'reduction' | 'increase';
  /** Whole percent, or tenths below 1 %; rounded towards nothing. */
  readonly percent: number;
  /** What the percentage is of: as the claim's. */
  readonly of: 'amplitude' | 'power';
}

/** Why a row carries no inference. */
export type NoInference = 'not-a-level' | 'one-run-each' | 'few-runs' | 'no-scatter' | OrderReason;

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

/** One row as it is judged: by its statement, whatever it was made with. */
export interface RowStatement {
  /** B/A of amplitudes; undefined where a level is none. */
  readonly ratio: number | undefined;
  /** The row's own interval, valid for all rows that are stated with it. */
  readonly interval: RatioInterval | undefined;
  /** Standard deviation of ln(level) from run to run, where there are runs to scatter. */
  readonly spread: number | undefined;
  /** Of the interval for this row alone. */
  readonly confidence: number;
  /** Why the numbers themselves forbid a verdict. */
  readonly noInference: NoInference | undefined;
}

/**
 * Judges a claim by one row. Supported when the whole interval lies where the claim is true,
 * contradicted when none of it does, else not shown; a guard forces "not shown" whatever the numbers say.
 * At exactly the claimed value "not shown" is the right answer 95 times of 100.
 *
 * @param forbidden whether reasons outside the numbers forbid a verdict: a failed check, a metric that was not planned
 * @throws RangeError for a claim that no level can meet
 */
export function judge(claim: Claim, row: RowStatement, forbidden = false): Verdict {
  const zone = claimZone(claim);
  const { interval, noInference, ratio } = row;
  const guarded = forbidden || noInference !== undefined;
  const verdict = guarded || interval === undefined ? 'not shown' : judgeInterval(zone, interval);
  return {
    verdict,
    zone,
    interval,
    changePercent: ratio && changePercent(ratio),
    lowPercent: interval && changePercent(interval.low),
    highPercent: interval && changePercent(interval.high),
    noInference,
    reason: guarded ? 'guarded' : reasonOf(verdict, interval),
    strongest: interval && !guarded ? strongestOf(interval, ofWhat(claim)) : undefined,
    settle: verdict === 'not shown' ? settleOf(guarded, zone, row) : undefined,
    bothWays: bothWays(claim, ratio),
  };
}

/**
 * Where an interval of the ratio B/A lies against the ratios for which a claim is true: all inside is "supported", all
 * outside "contradicted", else "not shown".
 */
function judgeInterval(zone: RatioInterval, { low, high }: RatioInterval): Judgement {
  if (low >= zone.low && high <= zone.high) return 'supported';
  return low > zone.high || high < zone.low ? 'contradicted' : 'not shown';
}

function reasonOf(verdict: Judgement, interval: RatioInterval | undefined): Reason {
  if (verdict === 'supported') return 'inside';
  if (verdict === 'contradicted') return 'outside';
  if (interval && interval.high < 1) return 'reduction-shown';
  return interval && interval.low > 1 ? 'increase-shown' : 'no-change-shown';
}

const ofWhat = (claim: Claim): 'amplitude' | 'power' => ('of' in claim ? (claim.of ?? 'amplitude') : 'amplitude');

function strongestOf({ low, high }: RatioInterval, of: 'amplitude' | 'power'): Strongest | undefined {
  const direction = high < 1 ? 'reduction' : 'increase';
  const exponent = of === 'power' ? 2 : 1;
  const size = high < 1 ? 100 * (1 - powerOf(high, exponent)) : 100 * (powerOf(low, exponent) - 1);
  if (!(size > 0)) return undefined;
  // A shade is given back before rounding down, so that 10 % does not become 9 % by the last digit.
  return { direction, of, percent: size >= 1 ? Math.floor(size + 1e-9) : Math.floor(10 * size + 1e-9) / 10 };
}

/** More runs than anyone makes; beyond it, more runs are no advice. */
const mostAdvised = 200;

function settleOf(guarded: boolean, zone: RatioInterval, row: RowStatement): Settle {
  if (guarded) return { by: 'removing-guards' };
  const runs = settlingRuns(zone, row);
  if (runs === undefined || runs > mostAdvised) return { by: 'nothing' };
  const inside = row.ratio !== undefined && row.ratio >= zone.low && row.ratio <= zone.high;
  return { by: 'runs', runs, way: inside ? 'support' : 'contradict' };
}

/** Runs that would put the interval clear of the nearest end of the zone, if the change is as found. */
function settlingRuns(zone: RatioInterval, { ratio, spread, confidence }: RowStatement): number | undefined {
  if (ratio === undefined || spread === undefined || spread <= 0) return undefined;
  const at = logOf(ratio);
  const ends = [zone.low, zone.high].filter((end) => end > 0 && end < Infinity);
  const distance = Math.min(...ends.map((end) => Math.abs(at - logOf(end))));
  if (distance === 0) return undefined;
  return runsNeededForLog(distance, { spread, confidence })?.runs;
}

function bothWays(claim: Claim, ratio: number | undefined): Verdict['bothWays'] {
  const claimed = claimedBothWays(claim);
  if (claimed === undefined || ratio === undefined) return undefined;
  return { claimed, found: { amplitudePercent: changePercent(ratio), powerPercent: powerPercent(ratio) } };
}
