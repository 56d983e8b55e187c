import { messages, type Sentences } from '../../result/messages.ts';
import type { Message } from '../../result/result.ts';
import { capitalised, listed } from '../../result/words.ts';
import type { Judgement, NoInference, Reason, Settle, Strongest, Verdict } from '../../statistics/claim.ts';
import type { OrderReason } from '../../statistics/sequence.ts';
import type { BothWays, Claim } from '../../statistics/claimForm.ts';
import type { Band } from '../../values/band.ts';
import { plain, printedUnit } from '../../values/number.ts';
import { bandText } from '../bandWords.ts';
import { percentText, signedTenthsText, statedPercentText } from '../percents.ts';

// A claim, what became of it, and why, in words.

const article = { reduction: 'a reduction', increase: 'an increase' } as const;

/** The claim with the number as it was claimed: `a reduction of at least 15 %`. */
export function claimText(claim: Claim): string {
  if (claim.kind === 'reduces') return article.reduction;
  if (claim.kind === 'increases') return article.increase;
  const size = `${statedPercentText(claim.percent)}${claim.of === 'power' ? ' of power' : ''}`;
  if (claim.kind === 'no worse than') return `an increase of no more than ${size}`;
  const around = claim.kind === 'about' ? ` (within ${Number(claim.tolerancePercent.toPrecision(4))} points)` : '';
  return `${article[claim.direction]} of ${claim.kind} ${size}${around}`;
}

/** What a band of a run holds that is no vibration, in percent, and by how much it could move the change (Infinity: by any). */
export interface NoiseInBand {
  readonly run: string;
  readonly band: Band | undefined;
  readonly sharePercent: number;
  readonly movePercent: number;
}

/** Reasons outside the figures that forbid a verdict. The message of each is a clause, as after `because`. */
export interface GuardFacts {
  /** `column` of the run sheet, without its unit. */
  'guard.speeds': { readonly column: string; readonly changePercent: number };
  /** `code` of the finding, and the channel where it is about one. */
  'guard.fault': { readonly run: string; readonly code: string; readonly channel: string | undefined };
  /** A step of the logger in `unit`, as a share of the power that the band (undefined: the whole signal) holds in a run. */
  'guard.rounding': NoiseInBand & { readonly channel: string; readonly step: number; readonly unit: string };
  /** What was cut off, as a share of a run's r.m.s. in the band. */
  'guard.clipped': NoiseInBand & { readonly channel: string };
  /** The logger at rest, as a share of the power that the band holds in a run. */
  'guard.noise': NoiseInBand;
  /** Mean square of the run's band against that of the logger at rest. */
  'guard.floor': { readonly run: string; readonly ratio: number };
  'guard.band': { readonly band: Band };
  /** Asked for after others had been compared. */
  'guard.compared': { readonly band: Band };
}

const inBand = (band: Band | undefined): string => (band === undefined ? '' : ` of ${bandText(band)}`);

/** Rounding to the logger's step as a share of a band's power. */
export const roundingText = ({
  run,
  channel,
  band,
  step,
  unit,
  sharePercent,
}: Omit<GuardFacts['guard.rounding'], 'movePercent'>): string =>
  `the logger’s step of ${plain(step, 3)}${unit && ` ${printedUnit(unit)}`} ${sharePercent > 100 ? 'would be more than all' : `is ${percentText(sharePercent)} of`} the power${inBand(band)} (${channel} of ${run})`;

/** What was cut off as a share of a band's r.m.s. */
export const clippingText = ({
  run,
  channel,
  band,
  sharePercent,
}: Omit<GuardFacts['guard.clipped'], 'movePercent'>): string =>
  `what clipping took from ${channel} of ${run} is up to ${percentText(sharePercent)} of its r.m.s.${inBand(band)}`;

const moveText = ({ movePercent }: NoiseInBand): string =>
  Number.isFinite(movePercent) ? `, which could move the change by ${percentText(movePercent)}` : '';

const guardClauses: Sentences<GuardFacts> = {
  'guard.speeds': ({ column, changePercent }) =>
    `the ${column === 'speed' ? 'mean speeds differ' : `means of ${column} differ`} by ${percentText(changePercent)}, so the sides are not comparable`,
  'guard.fault': ({ run, code, channel }) =>
    `a recording has a fault: ${run} (${code}${channel === undefined ? '' : `, channel ${channel}`})`,
  'guard.rounding': (facts) => `${roundingText(facts)}${moveText(facts)}`,
  'guard.clipped': (facts) => `${clippingText(facts)}${moveText(facts)}`,
  'guard.noise': (facts) =>
    `the noise of the logger at rest is ${percentText(facts.sharePercent)} of the power${inBand(facts.band)} (${facts.run})${moveText(facts)}`,
  'guard.floor': ({ run, ratio }) =>
    `the band lies under the logger’s noise floor (${run} holds ${ratio.toPrecision(2)} times the mean square of the logger at rest)`,
  'guard.band': ({ band }) => `${bandText(band)} is no band of the plan`,
  'guard.compared': ({ band }) => `${bandText(band)} is not among the bands compared; add it to "over"`,
};

export const { tell: guard } = messages<GuardFacts>(guardClauses);

export interface VerdictFacts {
  /** What the row found, in a sentence. */
  readonly found: string;
  /** Name of the baseline. */
  readonly a: string;
  readonly runsA: number;
  readonly runsB: number;
  readonly claim: Claim;
  readonly verdict: Verdict;
  /** As `guard` and the deviations of a plan give them: the message of each is a clause. */
  readonly guards: readonly Message[];
  /** Share of A's mean square that the band holds, in percent. */
  readonly shareOfA: number | undefined;
  /** Whether `found` tells the guards. */
  readonly foundTellsWhy: boolean;
  /** Of a claim of "up to": that the row is the best of so many, and what becomes of the figure as one to be expected. */
  readonly best: { readonly changes: number; readonly expected: Judgement | undefined } | undefined;
  /** The claim of the plan, where it is another. */
  readonly otherPlanned: Claim | undefined;
  /** Sides that were fitted once: what is shown holds of that fitting only. */
  readonly fittedOnce: readonly string[];
}

/** A verdict in words. */
export interface VerdictWords {
  /** The verdict as one or two sentences that can be quoted. */
  readonly sentence: string;
  /** Why it is what it is, and why it is no stronger: one sentence each. */
  readonly because: readonly string[];
  /** Those of them that `sentence` does not tell already. */
  readonly untold: readonly string[];
  /** What would settle a claim that is not shown, as a clause. */
  readonly settle: string | undefined;
}

/** The words of a verdict; the sentence names a claim that is supported instead of the reason where there is one. */
export function verdictWords(facts: VerdictFacts): VerdictWords {
  const { found, claim, verdict } = facts;
  const strongest = verdict.verdict === 'supported' ? undefined : verdict.strongest;
  const reason = reasonText(facts);
  const isTold = facts.foundTellsWhy && verdict.reason === 'guarded';
  const forSame = facts.guards.length < 2 ? ' for the same reason' : ' for the same reasons';
  const why = isTold ? forSame : strongest === undefined ? `: ${reason}` : `; ${strongestText(strongest)} is supported`;
  const because = [reason, ...besides(facts)].map((clause) => `${capitalised(clause)}.`);
  return {
    sentence: `${found} ${capitalised(`${reachClause(facts)}the claim of ${claimText(claim)} is ${verdict.verdict}${why}`)}.`,
    because,
    untold: strongest === undefined ? because.slice(1) : because,
    settle:
      verdict.settle && settleText(verdict.settle, facts.guards.length + (verdict.noInference === undefined ? 0 : 1)),
  };
}

/** Of which fittings what is shown holds, where it holds of no others. */
function reachClause({ verdict: { verdict, strongest }, fittedOnce }: VerdictFacts): string {
  if (fittedOnce.length === 0 || (verdict === 'not shown' && strongest === undefined)) return '';
  return `for ${fittedOnce.length === 1 ? 'this one fitting' : 'these single fittings'} of ${listed(fittedOnce)} alone, `;
}

const strongestText = ({ direction, percent, of }: Strongest): string =>
  `${article[direction]}${percent > 0 ? ` of at least ${percent} %${of === 'power' ? ' of power' : ''}` : ''}`;

function reasonText(facts: VerdictFacts): string {
  const { verdict, guards } = facts;
  const { reason, noInference, zone } = verdict;
  if (facts.best !== undefined && (reason === 'inside' || reason === 'outside'))
    return bestCaseClauses[reason](facts.best.changes);
  if (reason !== 'guarded') return reasonClauses[reason](zone);
  return [
    ...(noInference === undefined ? [] : [noInferenceText(noInference, facts)]),
    ...guards.map(({ message }) => message),
  ].join('; ');
}

/** What of a change in the way that is shown is open: a claim with one end is about how large it is, or how small. */
function sizeText({ low, high }: Verdict['zone'], isReduction: boolean): string {
  if (low > 0 && high < Infinity) return 'as claimed';
  const isLarge = isReduction ? low <= 0 : high === Infinity;
  return `as ${isLarge ? 'large' : 'small'} as claimed`;
}

/** `zone`: the ratios that the claim allows. */
const reasonClauses: Readonly<Record<Exclude<Reason, 'guarded'>, (zone: Verdict['zone']) => string>> = {
  inside: () => 'the whole interval lies where the claim is true',
  outside: () => 'no part of the interval lies where the claim is true',
  'reduction-shown': (zone) => `a reduction is shown, but whether it is ${sizeText(zone, true)} is not settled`,
  'increase-shown': (zone) => `an increase is shown, but whether it is ${sizeText(zone, false)} is not settled`,
  'no-change-shown': () => 'no change is shown either way',
};

/** Of the best of so many changes. */
const bestCaseClauses = {
  inside: (changes: number) =>
    changes === 1
      ? 'the whole interval reaches it'
      : `of ${changes} changes compared the whole interval of this one reaches it, and "up to" asks for no more`,
  outside: (changes: number) =>
    changes === 1
      ? 'no part of the interval reaches it, in what was compared'
      : `no part of the interval of any of the ${changes} changes compared reaches it, this being the nearest`,
} as const;

/** Why the order of the runs keeps a verdict back, as a clause. */
export const orderClauses: Readonly<Record<OrderReason, string>> = {
  'order-apart': 'all runs of one condition came before the other’s, so that a drift cannot be told from a change',
  'other-days': 'no day has runs of both conditions, so that what differs between days cannot be told from a change',
};

function noInferenceText(why: NoInference, { runsA, runsB }: VerdictFacts): string {
  switch (why) {
    case 'not-a-level':
      return 'a level is 0 or not a number, so no ratio can be formed';
    case 'one-run-each':
      return 'one run each says nothing about how other runs would come out';
    case 'few-runs':
      return `${runsA} + ${runsB} runs are too few to infer anything`;
    case 'no-scatter':
      return 'the runs do not differ at all, which real runs never do';
    case 'order-apart':
    case 'other-days':
      return orderClauses[why];
  }
}

/** What a reader is told beside the reason. */
function besides({ verdict: { bothWays }, a, shareOfA, best, claim, otherPlanned }: VerdictFacts): string[] {
  const clauses: string[] = [];
  if (best !== undefined) clauses.push(...bestCaseTexts(best, claim));
  if (bothWays !== undefined)
    clauses.push(`claimed ${bothWaysText(bothWays.claimed)}; found ${bothWaysText(bothWays.found)}`);
  if (shareOfA !== undefined) clauses.push(`the band holds ${shareOfA.toPrecision(3)} % of the mean square of ${a}`);
  if (otherPlanned !== undefined)
    clauses.push(`the claim that was planned is ${claimText(otherPlanned)}, and this is another`);
  return clauses;
}

/** What "up to" can mean, and what it does not. */
function bestCaseTexts({ expected }: NonNullable<VerdictFacts['best']>, claim: Claim): string[] {
  const least = claim.kind === 'up to' ? claimText({ ...claim, kind: 'at least' }) : '';
  return [
    `"up to" is read as the best case of what was compared, for it promises nothing of any other`,
    ...(expected === undefined ? [] : [`as something to be expected, ${least} is ${expected}`]),
  ];
}

const bothWaysText = ({ amplitudePercent, powerPercent }: BothWays): string =>
  `${signedTenthsText(amplitudePercent)} of amplitude, which is ${signedTenthsText(powerPercent)} of power`;

/** @param reasons how many keep a verdict back */
function settleText(settle: Settle, reasons: number): string {
  switch (settle.by) {
    case 'removing-guards':
      return `this can be judged once the ${reasons === 1 ? 'reason named is' : 'reasons named are'} removed`;
    case 'nothing':
      return 'the change found lies so close to the claimed value that more runs would not settle it';
    case 'runs':
      return `if the change is really as found, about ${settle.runs} runs of each would ${settle.way} the claim (80 % power, scatter as seen); adding runs to these until it holds would not be a fair test`;
  }
}
