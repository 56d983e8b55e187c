import type { NoInference, Settle, Verdict } from '../../statistics/claim.ts';
import type { BothWays, Claim } from '../../statistics/claimForm.ts';
import type { Comparison, Note } from '../../statistics/comparison.ts';
import { fewestRuns, type Method, type Obstacle } from '../../statistics/methods.ts';
import type { Warning } from '../../result/result.ts';

// What statistics finds, as codes and facts, in words.

const methodNames: Readonly<Record<Method, string>> = {
  welch: 'Welch t interval on the logarithms of the runs',
  pooled: 'pooled t interval on the logarithms of the runs',
  paired: 'paired t interval on the logarithms of the runs',
  trend: 'linear trend over the run order taken out',
};

const withinTheseRuns = 'within these two runs only; not evidence about the change itself';

/** The method of a comparison and what it rests on, as a phrase; or why there is no interval. */
export function methodText({ method, runsA, runsB }: Comparison): string {
  if (method === 'one run each') return `one run each: ${withinTheseRuns}`;
  if (method === 'no inference')
    return `${runsA} + ${runsB} runs: too few to infer anything about other runs; at least ${fewestRuns} of each are needed`;
  return `${methodNames[method]}, ${runsA} + ${runsB} runs`;
}

/** What a note's sentence takes from its surroundings. */
export interface NoteNames {
  /** Names of the two sides. */
  readonly a: string;
  readonly b: string;
  /** How a message about a row's band begins: `10 to 50 Hz`. */
  readonly band: (row: number) => string;
}

/** A note of a comparison as a warning. */
export const noteWarning = (note: Note, names: NoteNames): Warning => ({
  code: `compare.${note.code}`,
  message: 'band' in note ? `${names.band(note.band)}: ${noteText(note, names)}` : noteText(note, names),
});

function noteText(note: Note, { a, b }: NoteNames): string {
  switch (note.code) {
    case 'one-run-each':
      return `There is one run each: the figures hold ${withinTheseRuns}.`;
    case 'few-runs':
      return `There are ${note.runsA} runs of ${a} and ${note.runsB} of ${b}; at least ${note.needed} of each are needed for an interval.`;
    case 'method-not-possible': {
      const hint =
        note.obstacle === 'no-order' ? ' Give the order in a run sheet (column order), and load with it.' : '';
      const why = {
        'unequal-counts': `pairs need as many runs of ${a} as of ${b}, and there are ${note.runsA} and ${note.runsB}`,
        'no-order': 'the trend method needs the order of the runs',
        'same-place': 'two runs have the same place in the order',
        'one-before-the-other':
          'all runs of one condition came before the other, so drift and change cannot be told apart',
      } satisfies Record<Obstacle, string>;
      return `Welch's method was used instead of ${note.method}: ${why[note.obstacle]}.${hint}`;
    }
    case 'order-leans': {
      const lag = Math.abs(note.lag).toFixed(1);
      return `Runs of ${b} came on average ${lag} runs ${note.lag > 0 ? 'after' : 'before'} those of ${a}, so a drift of 1 % a run would look like a change of ${lag} %; an ABBA order cancels it.`;
    }
    case 'drift-seen': {
      const drift = `${note.perRun < 0 ? '-' : '+'}${Math.abs(100 * note.perRun).toFixed(1)} %`;
      const p = note.p < 0.001 ? 'below 0.001' : `= ${note.p.toFixed(3)}`;
      const effect = note.method === 'trend' ? 'which is taken out' : 'which the trend method would take out';
      return `The level drifted by ${drift} a run over the day (p ${p}), ${effect}.`;
    }
    case 'pairs-not-neighbours':
      return 'The runs of a pair did not follow one another, so pairing does not take out what wandered between them.';
    case 'no-scatter':
      return 'The runs do not differ at all; was the same file loaded more than once?';
    case 'not-a-level':
      return 'A level is 0 or not a number, so no ratio can be formed.';
    case 'methods-disagree': {
      const found = note.shown
        ? 'no difference where this method shows one'
        : 'a difference where this method shows none';
      return `By the ${note.methods.join(' and ')} ${note.methods.length === 1 ? 'method' : 'methods'} the runs would show ${found}; the planned method counts.`;
    }
  }
}

/** The claim with the number as it was claimed: `a reduction of at least 15 %`. */
export function claimText(claim: Claim): string {
  if (claim.kind === 'reduces') return article.reduction;
  if (claim.kind === 'increases') return article.increase;
  const of = claim.of === 'power' ? ' of power' : '';
  if (claim.kind === 'no worse than') return `an increase of no more than ${plain(claim.percent)} %${of}`;
  const around = claim.kind === 'about' ? ` (within ${plain(claim.tolerancePercent)} points)` : '';
  return `${article[claim.direction]} of ${claim.kind} ${plain(claim.percent)} %${of}${around}`;
}

const article = { reduction: 'a reduction', increase: 'an increase' } as const;

/** A verdict in words: each is a clause without a full stop but `sentence`. */
export interface VerdictWords {
  /** The verdict as one or two sentences. */
  readonly sentence: string;
  /** Why, when it is not plain from the numbers: guards, or what is and is not settled. */
  readonly because: string;
  /** What would settle a claim that is not shown. */
  readonly settle: string | undefined;
  /** The claimed and the found change as amplitude and as power. */
  readonly bothWays: string | undefined;
}

/**
 * A verdict in words.
 *
 * @param subject what changed and where: `From foam to gel, the band r.m.s. of z in 10 to 50 Hz`
 * @param guards reasons outside the numbers that forbid a verdict, each a clause after `because`
 */
export function verdictWords(
  subject: string,
  claim: Claim,
  comparison: Comparison,
  verdict: Verdict,
  guards: readonly string[],
): VerdictWords {
  const { strongest, settle, bothWays } = verdict;
  const because = becauseText(comparison, verdict, guards);
  const found =
    strongest && verdict.verdict !== 'supported'
      ? `; ${article[strongest.direction]}${strongest.percent > 0 ? ` of at least ${strongest.percent} %` : ''} is supported`
      : `: ${because}`;
  const judged = `The claim of ${claimText(claim)} is ${verdict.verdict}`;
  return {
    sentence: `${subject} ${changeText(comparison, verdict)}. ${judged}${found}.`,
    because,
    settle: settle && settleText(settle),
    bothWays: bothWays && `claimed ${bothWaysText(bothWays.claimed)}; found ${bothWaysText(bothWays.found)}`,
  };
}

function changeText(comparison: Comparison, { changePercent, lowPercent, highPercent }: Verdict): string {
  if (changePercent === undefined) return 'cannot be compared';
  const change = `changed by ${signed(changePercent)} %`;
  if (lowPercent === undefined || highPercent === undefined) return `${change} (${methodText(comparison)})`;
  const { confidence, runsA, runsB } = comparison;
  return `${change} (${plain(100 * confidence)} % interval ${signed(lowPercent)} to ${signed(highPercent)} %, ${runsA} + ${runsB} runs)`;
}

function becauseText(
  comparison: Comparison,
  { reason, noInference, zone }: Verdict,
  guards: readonly string[],
): string {
  const size = zone.low > 0 && zone.high < Infinity ? 'as claimed' : 'as large or as small as claimed';
  switch (reason) {
    case 'guarded':
      return [...(noInference === undefined ? [] : [noInferenceText(noInference, comparison)]), ...guards].join('; ');
    case 'inside':
      return 'the whole interval lies where the claim is true';
    case 'outside':
      return 'no part of the interval lies where the claim is true';
    case 'reduction-shown':
      return `a reduction is shown, but whether it is ${size} is not settled`;
    case 'increase-shown':
      return `an increase is shown, but whether it is ${size} is not settled`;
    case 'no-change-shown':
      return 'no change is shown either way';
  }
}

function noInferenceText(why: NoInference, { runsA, runsB }: Comparison): string {
  switch (why) {
    case 'not-a-level':
      return 'a level is 0 or not a number, so no ratio can be formed';
    case 'one-run-each':
      return 'one run each says nothing about how other runs would come out';
    case 'few-runs':
      return `${runsA} + ${runsB} runs are too few to infer anything`;
    case 'no-scatter':
      return 'the runs do not differ at all, which real runs never do';
  }
}

function settleText(settle: Settle): string {
  switch (settle.by) {
    case 'removing-guards':
      return 'this can be judged once the reasons named are removed';
    case 'nothing':
      return 'the change found lies so close to the claimed value that more runs would not settle it';
    case 'runs':
      return `if the change is really as found, about ${settle.runs} runs of each would ${settle.way} the claim (80 % power, scatter as seen); adding runs to these until it holds would not be a fair test`;
  }
}

const bothWaysText = ({ amplitudePercent, powerPercent }: BothWays): string =>
  `${signed(amplitudePercent)} % of amplitude, which is ${signed(powerPercent)} % of power`;

/** A percentage with its sign, one decimal. */
function signed(value: number): string {
  const size = Math.abs(value).toFixed(1);
  return Number(size) === 0 ? size : `${value < 0 ? '−' : '+'}${size}`;
}

/** A number as people write it: up to 4 significant digits and no trailing zeros. */
const plain = (value: number): string => String(Number(value.toPrecision(4)));
