import { claimedBothWays, claimText, claimZone, plain, type Claim } from './claimForm.ts';
import type { Comparison, ComparisonRow } from './comparison.ts';
import type { RatioInterval } from './estimate.ts';
import { runsNeededForLog } from './repeats.ts';

export type Judgement = 'supported' | 'contradicted' | 'not shown';

export interface JudgeOptions {
  /**
   * Reasons outside the numbers that forbid a verdict: a failed check, a metric that was not planned, speeds that
   * differ, a band under the noise floor, a missing part of the claim. Each is a clause for "... because ...".
   */
  readonly guards?: readonly string[] | undefined;
  /** Judge by the interval that holds for all bands at once; for a band picked after looking. Default false. */
  readonly simultaneous?: boolean | undefined;
}

/** The strongest plain statement of its kind that the interval carries. */
export interface Strongest {
  readonly direction: 'reduction' | 'increase';
  /** Whole percent of amplitude, or tenths below 1 %; rounded towards nothing. */
  readonly percent: number;
  /** "a reduction of at least 10 %" */
  readonly text: string;
}

/** Clauses that together make the verdict's sentence; each stands without a full stop. */
export interface VerdictParts {
  /** "changed by -14.2 % (95 % interval -19.1 to -9.0 %, 3 + 3 runs)", or why there is no interval. */
  readonly change: string;
  /** "the claim of a reduction of at least 15 % is not shown" */
  readonly claim: string;
  /** Why, when it is not plain from the numbers: guards, or what is and is not settled. */
  readonly because: string;
  /** "a reduction of at least 10 % is supported" */
  readonly strongest: string | undefined;
  /** What would settle a claim that is not shown. */
  readonly settle: string | undefined;
  /** The claimed and the found change as amplitude and as power. */
  readonly bothWays: string | undefined;
}

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
  /** The guards that were in force, the tool's own included; empty when the numbers alone decided. */
  readonly guards: readonly string[];
  readonly strongest: Strongest | undefined;
  /** Runs of each condition that would settle it if the change is as found (80 % power); undefined when no number would. */
  readonly runsToSettle: number | undefined;
  readonly parts: VerdictParts;
}

/**
 * Judges a claim by one row of a comparison. Supported when the whole interval lies where the claim is true,
 * contradicted when none of it does, else not shown; a guard forces "not shown" whatever the numbers say.
 * At exactly the claimed value "not shown" is the right answer 95 times of 100.
 *
 * @param band index of the row
 */
export function judge(claim: Claim, comparison: Comparison, band: number, options: JudgeOptions = {}): Verdict {
  const row = comparison.rows[band];
  if (row === undefined) throw new RangeError(`there is no band ${band}`);
  const zone = claimZone(claim);
  const inference = row.inference;
  const interval = options.simultaneous ? inference?.simultaneous : inference?.interval;
  const guards = [...ownGuards(comparison, row), ...(options.guards ?? [])];
  const byNumbers = interval ? place(zone, interval) : 'not shown';
  const verdict = guards.length > 0 ? 'not shown' : byNumbers;
  const strongest = interval && guards.length === 0 ? strongestOf(interval) : undefined;
  const runsToSettle = verdict === 'not shown' && guards.length === 0 ? settlingRuns(zone, row, comparison) : undefined;
  return {
    verdict,
    zone,
    interval,
    changePercent: row.changePercent,
    lowPercent: interval && 100 * (interval.low - 1),
    highPercent: interval && 100 * (interval.high - 1),
    guards,
    strongest,
    runsToSettle,
    parts: {
      change: changePart(comparison, row, interval),
      claim: `the claim of ${claimText(claim)} is ${verdict}`,
      because: becausePart(verdict, guards, zone, interval),
      strongest: strongest && `${strongest.text} is supported`,
      settle: verdict === 'not shown' ? settlePart(guards, runsToSettle, zone, row) : undefined,
      bothWays: bothWaysPart(claim, row),
    },
  };
}

/**
 * The verdict as one or two sentences.
 * @param subject what changed and where: "In 10-50 Hz (z, seat) rms"
 */
export function verdictSentence(subject: string, { verdict, parts }: Verdict): string {
  const claim = parts.claim[0].toUpperCase() + parts.claim.slice(1);
  const also = parts.strongest && verdict !== 'supported' ? `; ${parts.strongest}` : '';
  const why = also ? '' : `: ${parts.because}`;
  return `${subject} ${parts.change}. ${claim}${why}${also}.`;
}

function ownGuards(comparison: Comparison, row: ComparisonRow): string[] {
  if (row.inference) return [];
  if (row.ratio === undefined) return ['a level is 0 or not a number, so no ratio can be formed'];
  if (comparison.method === 'one run each') return ['one run each says nothing about how other runs would come out'];
  if (comparison.method === 'no inference')
    return [`${comparison.runsA} + ${comparison.runsB} runs are too few to infer anything`];
  return ['the runs do not differ at all, which real runs never do'];
}

function place(zone: RatioInterval, { low, high }: RatioInterval): Judgement {
  if (low >= zone.low && high <= zone.high) return 'supported';
  return low > zone.high || high < zone.low ? 'contradicted' : 'not shown';
}

function strongestOf({ low, high }: RatioInterval): Strongest | undefined {
  const direction = high < 1 ? 'reduction' : 'increase';
  const size = high < 1 ? 100 * (1 - high) : 100 * (low - 1);
  if (!(size > 0)) return undefined;
  // A shade is given back before rounding down, so that 10 % does not become 9 % by the last digit.
  const percent = size >= 1 ? Math.floor(size + 1e-9) : Math.floor(10 * size + 1e-9) / 10;
  const article = direction === 'reduction' ? 'a reduction' : 'an increase';
  return { direction, percent, text: percent > 0 ? `${article} of at least ${percent} %` : article };
}

/** Runs that would put the interval clear of the nearest end of the zone, if the change is as found. */
function settlingRuns(zone: RatioInterval, row: ComparisonRow, { confidence }: Comparison): number | undefined {
  if (row.ratio === undefined || row.spread === undefined || row.spread <= 0) return undefined;
  const at = Math.log(row.ratio);
  const ends = [zone.low, zone.high].filter((end) => end > 0 && end < Infinity);
  const distance = Math.min(...ends.map((end) => Math.abs(at - Math.log(end))));
  if (distance === 0) return undefined;
  return runsNeededForLog(distance, { spread: row.spread, confidence })?.runs;
}

/** A percentage with its sign, one decimal. */
export function signedPercent(value: number): string {
  const size = Math.abs(value).toFixed(1);
  return Number(size) === 0 ? size : `${value < 0 ? '-' : '+'}${size}`;
}

function changePart(comparison: Comparison, row: ComparisonRow, interval: RatioInterval | undefined): string {
  if (row.changePercent === undefined) return 'cannot be compared';
  const change = `changed by ${signedPercent(row.changePercent)} %`;
  if (!interval) return `${change} (${comparison.label})`;
  const [low, high] = [interval.low, interval.high].map((ratio) => signedPercent(100 * (ratio - 1)));
  return `${change} (${plain(100 * comparison.confidence)} % interval ${low} to ${high} %, ${comparison.runsA} + ${comparison.runsB} runs)`;
}

function becausePart(
  verdict: Judgement,
  guards: readonly string[],
  zone: RatioInterval,
  interval: RatioInterval | undefined,
): string {
  if (guards.length > 0) return guards.join('; ');
  if (verdict === 'supported') return 'the whole interval lies where the claim is true';
  if (verdict === 'contradicted') return 'no part of the interval lies where the claim is true';
  if (interval && interval.high < 1) return `a reduction is shown, but whether it is ${sizeWord(zone)} is not settled`;
  if (interval && interval.low > 1) return `an increase is shown, but whether it is ${sizeWord(zone)} is not settled`;
  return 'no change is shown either way';
}

const sizeWord = (zone: RatioInterval): string =>
  zone.low > 0 && zone.high < Infinity ? 'as claimed' : 'as large or as small as claimed';

/** More runs than anyone makes; beyond it, more runs are no advice. */
const mostAdvised = 200;

function settlePart(
  guards: readonly string[],
  runs: number | undefined,
  zone: RatioInterval,
  row: ComparisonRow,
): string {
  if (guards.length > 0) return 'this can be judged once the reasons named are removed';
  if (runs === undefined || runs > mostAdvised) {
    return 'the change found lies so close to the claimed value that more runs would not settle it';
  }
  const way = row.ratio !== undefined && row.ratio >= zone.low && row.ratio <= zone.high ? 'support' : 'contradict';
  return (
    `if the change is really as found, about ${runs} runs of each would ${way} the claim (80 % power, ` +
    `scatter as seen); adding runs to these until it holds would not be a fair test`
  );
}

function bothWaysPart(claim: Claim, row: ComparisonRow): string | undefined {
  const claimed = claimedBothWays(claim);
  if (!claimed || row.changePercent === undefined || row.powerPercent === undefined) return undefined;
  const pair = (amplitude: number, power: number): string =>
    `${signedPercent(amplitude)} % of amplitude, which is ${signedPercent(power)} % of power`;
  return `claimed ${pair(claimed.amplitudePercent, claimed.powerPercent)}; found ${pair(row.changePercent, row.powerPercent)}`;
}
