import type { Note } from '../../statistics/comparison.ts';
import type { Method, Obstacle } from '../../statistics/methods.ts';
import { capitalised, counted, listed } from '../../result/words.ts';
import { messages, type Sentences } from '../../result/messages.ts';
import type { Warning } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import { bandHead, bandsText, bandText } from '../bandWords.ts';
import { signedPercentText } from '../percents.ts';
import type { NoSpeed } from '../recordings/turningRate.ts';
import { noSpeedText } from './noSpeed.ts';
import { withReasons, type LeftOut } from './recordings.ts';
import { plain, printedUnit, significant } from '../../values/number.ts';
import { formatNumber } from '../../units/format.ts';
import { clippingText, roundingText, type GuardFacts } from './verdict.ts';

// Why two sides can't be compared or a claim be judged by them, and what a reader must know of a comparison.

/** Names of the two sides. */
export interface SideNames {
  readonly a: string;
  readonly b: string;
}

/** A run that is left out and can't be taken in. */
interface Unable {
  readonly label: string;
  /** Why, in a sentence. */
  readonly obstacle: string;
}

/** A figure of the run sheet that differs between the sides, as means in the sheet's unit. */
export interface UnlikeCondition extends SideNames {
  /** The column without its unit: `mass`, `tyre pressure`. */
  readonly column: string;
  readonly unit: string;
  readonly meanA: number;
  readonly meanB: number;
  readonly changePercent: number;
}

/** From the least to the largest of some figures. */
export interface Extent {
  readonly from: number;
  readonly to: number;
}

/** Levels of 0 are refused before they are compared, so that no note is about one. */
type ToldNote = Exclude<Note, { readonly code: 'not-a-level' }>;

/** A note's facts with what its sentence takes from its surroundings. */
type NoteFacts = {
  [N in ToldNote as `compare.${N['code']}`]: Omit<N, 'code' | 'band'> &
    SideNames &
    (N extends { readonly band: number } ? { readonly band: Band } : object);
};

export interface EvidenceFacts extends NoteFacts {
  'compare.kinds': object;
  'compare.spectra': {
    readonly side: string;
    readonly quantity: string | undefined;
    readonly of: string;
    readonly needs: string;
  };
  'channel.mixed': SideNames & { readonly channelA: string; readonly channelB: string };
  /** Empty text of runs without one. */
  'compare.weightings': SideNames & {
    readonly weightingsA: readonly string[];
    readonly weightingsB: readonly string[];
  };
  'channel.many': { readonly side: string; readonly channels: readonly string[] };
  'compare.same': { readonly run: string };
  /** Every run that is left out; empty where no sheet leaves one out. */
  'compare.including': { readonly excluded: readonly Unable[] };
  'compare.zero': { readonly band: Band };
  'metric.transfer': object;
  'metric.band': { readonly metric: string; readonly isLine: boolean };
  'metric.line': object;
  /** What the run sheet has of a run where its speed or turning rate should stand. */
  'metric.line-speed': NoSpeed;
  'compare.line-faint': { readonly side: string; readonly faint: number; readonly runs: number };
  /** Of a dose value. */
  'metric.resultant': { readonly axes: readonly string[] };
  'metric.unit': { readonly channel: string; readonly unit: string };
  'floor.channel': { readonly channel: string };
  'floor.unit': { readonly floor: string; readonly runs: string };
  'band.missing': { readonly fraction: string };
  /** Which of the bands compared a claim is about: not said, or none of them. */
  'compare.axis': { readonly side: string; readonly axis: string; readonly channels: readonly string[] };
  'compare.axes': object;
  /** Powers of a covariate by which the change would be another. */
  'compare.adjusted': SideNames & {
    readonly channel: string;
    /** Undefined of the whole signal. */
    readonly band: Band | undefined;
    readonly column: string;
    readonly exponent: number;
    readonly others: readonly { readonly exponent: number; readonly changePercent: number }[];
  };
  'within.empty': { readonly run: string; readonly side: string; readonly column: string };
  'within.one': { readonly column: string; readonly word: string };
  'within.missing': { readonly side: string; readonly column: string; readonly stratum: string };
  'adjust.unplanned': { readonly column: string };
  'adjust.apart': SideNames & { readonly column: string };
  'adjust.unit': { readonly column: string; readonly units: readonly string[] };
  /** `found` is a figure that has no logarithm; undefined where there is none at all. */
  'adjust.figure': { readonly column: string; readonly run: string; readonly found: string | undefined };
  /** Which of several conditions, axes or strata a claim is about: not said, or none of them. */
  'claim.which': {
    readonly what: 'condition' | 'axis' | 'stratum';
    readonly named: string | undefined;
    readonly known: readonly string[];
  };
  'claim.band':
    | { readonly problem: 'not said'; readonly compared: readonly Band[] }
    | { readonly problem: 'not compared'; readonly compared: readonly Band[]; readonly band: Band };
  'compare.using': object;
  /** Words that a column of the run sheet has for the runs of a side, or of both. */
  'compare.mixed': { readonly sides: readonly string[]; readonly column: string; readonly words: readonly string[] };
  /** Mean lengths of the runs in s, and mean rates in Hz. */
  'compare.durations': SideNames & { readonly secondsA: number; readonly secondsB: number };
  'compare.rates': SideNames & { readonly rateA: number; readonly rateB: number };
  /** Sensors of both sides, and those of which no calibration is stated. */
  'compare.sensors': SideNames & {
    readonly sensorsA: readonly string[];
    readonly sensorsB: readonly string[];
    readonly unstated: readonly string[];
  };
  'compare.windows': { readonly windows: readonly { readonly shape: string; readonly length: number }[] };
  'compare.mass': UnlikeCondition;
  'compare.load': UnlikeCondition;
  'compare.pressure': UnlikeCondition;
  'compare.speeds': UnlikeCondition & {
    readonly isTooFar: boolean;
    /** The change at equal speed, if levels go with speed to the power `exponent`. */
    readonly atEqualSpeed: readonly { readonly exponent: number; readonly changePercent: number }[];
  };
  'compare.apart': SideNames & { readonly column: string } & (FiguresApart | WordsApart);
  /** Ratio of mean squares. */
  'compare.floor': { readonly band: Band; readonly run: string; readonly ratio: number; readonly wanted: number };
  /** Coarse steps and clipping that do too little to a band to count, in percent of its power and of its r.m.s. */
  'compare.rounding': Omit<GuardFacts['guard.rounding'], 'movePercent'>;
  'compare.clipped': Omit<GuardFacts['guard.clipped'], 'movePercent'>;
  'compare.small-share': { readonly band: Band; readonly baseline: string; readonly sharePercent: number };
  'runs.included': { readonly runs: readonly LeftOut[] };
}

/** Figures that do not overlap; `hasPower` of a column that levels may be adjusted by. */
interface FiguresApart {
  readonly unit: string;
  readonly rangeA: Extent;
  readonly rangeB: Extent;
  readonly hasPower: boolean;
}

/** Words of each side, of which both have none in common. */
interface WordsApart {
  readonly wordsA: readonly string[];
  readonly wordsB: readonly string[];
}

const oneOf = (texts: readonly string[]): string => `${texts.slice(0, -1).join(', ')} or ${texts[texts.length - 1]}`;

function conditionText({ column, unit, a, b, meanA, meanB, changePercent }: UnlikeCondition): string {
  const [figureA, figureB] = [meanA, meanB].map((mean) => `${formatNumber(mean, 3)}${unit && ` ${unit}`}`);
  return `By the run sheet the mean ${column} was ${figureA} with ${a} and ${figureB} with ${b} (${signedPercentText(changePercent)})`;
}

const conditionSentence = (facts: UnlikeCondition): string => `${conditionText(facts)}: that may be the change.`;

const extentText = ({ from, to }: Extent): string =>
  from === to ? plain(from, 4) : `${plain(from, 4)} to ${plain(to, 4)}`;

function apartColumnSentence(facts: EvidenceFacts['compare.apart']): string {
  const { a, b, column } = facts;
  const said = (found: string, advice: string): string =>
    `No run of ${a} has the ${column} of a run of ${b} (${found}): unless it is a part of what is compared, what it does cannot be told from the change. ${advice}.`;
  if ('wordsA' in facts) {
    const [wordsA, wordsB] = [facts.wordsA, facts.wordsB].map((words) => listed(words, 'and', 4));
    return said(`${wordsA} against ${wordsB}`, `Make runs of both with each, and compare "within ${column}"`);
  }
  const { unit, rangeA, rangeB, hasPower } = facts;
  const power = hasPower ? `, or state its power, as in "adjust ${column} exponent 1"` : '';
  const ranges = `${extentText(rangeA)} against ${extentText(rangeB)}${unit && ` ${printedUnit(unit)}`}`;
  return said(ranges, `Give both sides the same range of it${power}`);
}

function speedSentence({ isTooFar, atEqualSpeed, ...facts }: EvidenceFacts['compare.speeds']): string {
  const verdict = isTooFar ? 'too far apart to compare' : 'vibration grows with speed';
  const changes = oneOf(atEqualSpeed.map(({ changePercent }) => signedPercentText(changePercent)));
  const powers = oneOf(atEqualSpeed.map(({ exponent }) => String(exponent)));
  return `${conditionText(facts)}: ${verdict}. At equal ${facts.column} the change would be ${changes}, if levels go with ${facts.column} to the power ${powers}.`;
}

function includingSentence({ excluded }: EvidenceFacts['compare.including']): string {
  if (excluded.length === 0) return 'No run sheet excludes a run of either side, so there is none to take in.';
  return ['None of the excluded runs can be taken in.', ...excluded.map(({ obstacle }) => obstacle)].join(' ');
}

function claimBandSentence(facts: EvidenceFacts['claim.band']): string {
  const compared = bandsText(facts.compared);
  switch (facts.problem) {
    case 'not said':
      return `The comparison has the bands ${compared}: say which one the claim is about, as in "over ${facts.compared[0].from}..${facts.compared[0].to} Hz".`;
    case 'not compared':
      return `The comparison has no band ${bandText(facts.band)}, only ${compared}: compare over it first.`;
  }
}

const severals = { condition: 'conditions', axis: 'axes', stratum: 'strata' } as const;

function whichSentence({ what, named, known }: EvidenceFacts['claim.which']): string {
  const example =
    what === 'condition' ? `claim C ${known[0]} reduction 15 %` : `claim C reduction 15 % ${what} ${known[0]}`;
  return named === undefined
    ? `The comparison has the ${severals[what]} ${known.join(', ')}: say which one the claim is about, as in "${example}".`
    : `The comparison has no ${what} ${named}, only ${known.join(', ')}.`;
}

const shortNames: Readonly<Record<Method, string>> = {
  welch: 'Welch’s t',
  paired: 'comparing in pairs',
  days: 'taking days apart',
  trend: 'taking a steady drift out',
  curve: 'taking a steady and a curved drift out',
  strata: 'putting the strata together',
  'over-days': 'putting the days together',
  refits: 'taking the means of the refits',
  'refits-trend': 'taking the means of the refits and a drift out',
};

const obstacleText = ({ obstacle, a, b, runsA, runsB }: EvidenceFacts['compare.method-not-possible']): string =>
  ({
    'unequal-counts': `pairs need as many runs of ${a} as of ${b}, and there are ${runsA} and ${runsB}.`,
    'no-order':
      'the trend method needs the order of the runs. Give the order in a run sheet (column order), and load with it.',
    'same-place': 'two runs have the same place in the order.',
    'pairs-incomplete': 'the pairs of the run sheet do not hold one run of each.',
  })[obstacle satisfies Obstacle];

const inflationText = (inflation: number): string =>
  `the variance of the change is ${inflation.toFixed(2)} times that of an interleaved order`;

function apartSentence({ a, b, varianceInflation }: EvidenceFacts['compare.order-apart']): string {
  const cost =
    varianceInflation === undefined ? '' : ` (with a steady drift taken out, ${inflationText(varianceInflation)})`;
  return `All runs of one of ${a} and ${b} came before the other’s, so a drift cannot be told from a change and no verdict is given${cost}: mix them, as "order" proposes.`;
}

const noteSentences: Sentences<NoteFacts> = {
  'compare.one-run-each': () => 'There is one run each: the figures say nothing about other runs.',
  'compare.few-runs': ({ a, b, runsA, runsB, needed }) =>
    `There ${runsA === 1 ? 'is' : 'are'} ${counted(runsA, 'run')} of ${a} and ${runsB} of ${b}; at least ${needed} of each are needed for an interval.`,
  'compare.few-in-cell': ({ least, needed }) =>
    `In one stratum there ${least === 1 ? 'is 1 run' : `are ${least} runs`} of a side; at least ${needed} are needed in each to put the strata together.`,
  'compare.few-for-slope': ({ least, needed }) =>
    `The slope of a covariate is fitted with at least ${needed} runs of each, and there are ${least}: state its exponent instead.`,
  'compare.method-not-possible': (facts) =>
    `${capitalised(shortNames[facts.instead])} was used instead of ${facts.method}: ${obstacleText(facts)}`,
  'compare.order-leans': ({ a, b, varianceInflation }) =>
    `The runs of ${a} and ${b} are not well mixed: ${inflationText(varianceInflation)}, as "order" proposes one.`,
  'compare.order-apart': apartSentence,
  'compare.other-days': ({ a, b }) =>
    `No day has runs of both ${a} and ${b}, so what differs between days cannot be told from a change and no verdict is given: make runs of both on each day, as "order" proposes.`,
  'compare.fitted-once': ({ a, b, onceA, onceB }) =>
    `${onceA && onceB ? `${capitalised(a)} and ${b} were each` : `${capitalised(onceA ? a : b)} was`} fitted once: the interval is that of running again, and holds what fitting again would change in no part. A change may be claimed of ${onceA && onceB ? 'these two fittings' : 'this fitting'} alone, not of the parts; fit each again between runs, at least twice, and say so in the column "refit".`,
  'compare.pairs-not-neighbours': () =>
    'The runs of a pair did not follow one another, so pairing does not take out what wandered between them.',
  'compare.no-scatter': ({ band }) =>
    `${bandHead(band)}: The runs do not differ at all; was the same file loaded more than once?`,
};

const weightedBy = (weightings: readonly string[]): string =>
  listed(weightings.map((one) => (one === '' ? 'not weighted' : `weighted by ${one}`)));

const sentences: Sentences<EvidenceFacts> = {
  ...noteSentences,
  'compare.kinds': () => 'A response can only be compared with a response.',
  'compare.spectra': ({ side, quantity, of, needs }) =>
    `The ${quantity ?? 'result'} of ${side} is there as spectra alone, and "${needs}" needs samples, which are in ${of}: compare runs that "integrate" has made ${quantity ?? 'what is wanted'}.`,
  'channel.mixed': ({ a, b, channelA, channelB }) =>
    `${a} is of channel ${channelA} and ${b} of ${channelB}: compare like with like.`,
  'compare.weightings': ({ a, b, weightingsA, weightingsB }) =>
    `${a} is ${weightedBy(weightingsA)} and ${b} is ${weightedBy(weightingsB)}: weight both alike, or neither and say "metric wk" in the comparison.`,
  'channel.many': ({ side, channels }) =>
    `${side} has the channels ${channels.join(', ')}: choose one to compare, as in "channel ${side} ${channels[channels.length - 1]}", or take the resultant.`,
  'compare.same': ({ run }) => `${run} stands on both sides: a run can't be evidence against itself.`,
  'compare.including': includingSentence,
  'compare.zero': ({ band }) => `In ${bandText(band)} a run has no vibration at all, so there is no ratio to give.`,
  'metric.transfer': () => 'Responses are compared by their transmissibility: leave the metric out.',
  'metric.band': ({ metric, isLine }) =>
    isLine
      ? `${metric} says itself where to look, in each run: leave the band out.`
      : `${metric} is a level of the whole signal, not of a band: take the band out of the runs first, as in "bandpass runs 10..50 Hz".`,
  'metric.line': () =>
    'A line is told by its order and the column of the run sheet that it goes with, as in "metric line 1 x speed".',
  'metric.line-speed': noSpeedText,
  'compare.line-faint': ({ side, faint, runs }) =>
    `In ${faint} of ${counted(runs, 'run')} of ${side} less than half of what is compared is the line: as much stands beside it, or its speed is not the one in the run sheet.`,
  'metric.resultant': ({ axes }) =>
    `A vibration dose value is of one axis, and no standard adds up those of ${listed(axes)}: compare an axis, as in "channel runs ${axes[axes.length - 1]}", or the r.m.s. of the resultant.`,
  'metric.unit': ({ channel, unit }) =>
    `A vibration dose value is of an acceleration, and ${channel} is in ${unit || 'no unit'}.`,
  'floor.channel': ({ channel }) => `The recording at rest has no channel ${channel}: load it with all its axes.`,
  'floor.unit': ({ floor, runs }) =>
    `The recording at rest is in ${floor} and the runs in ${runs}: load both in one unit.`,
  'band.missing': ({ fraction }) => `${fraction} bands need the range they are to cover, as in ${fraction} 4..100 Hz.`,
  'compare.axis': ({ side, axis, channels }) =>
    `${side} has no channel ${axis} in every run, only ${channels.join(', ')}: name axes that all runs have.`,
  'compare.axes': () => 'Responses have no axes to choose: compare them without "axes".',
  'compare.adjusted': ({ a, b, channel, band, column, exponent, others }) =>
    `The change from ${a} to ${b} (${channel}${band === undefined ? '' : `, ${bandText(band)}`}) is at equal ${column}, if levels go with it to the power ${exponent}. By the power ${oneOf(others.map((one) => String(one.exponent)))} it would be ${oneOf(others.map(({ changePercent }) => signedPercentText(changePercent)))}.`,
  'within.empty': ({ run, side, column }) =>
    `The run sheet says nothing of ${run} (${side}) under ${column}: fill the column in, or compare within another.`,
  'within.one': ({ column, word }) =>
    `Every run has ${word} under ${column}, so there is nothing to compare within: leave "within ${column}" out.`,
  'within.missing': ({ side, column, stratum }) =>
    `${side} has no run with ${stratum} under ${column}: compare only what was measured with every condition.`,
  'adjust.unplanned': ({ column }) =>
    `A slope of ${column} is fitted only where a plan names it: write "adjust ${column}" in the plan, or state the power, as in "adjust ${column} exponent 1.5".`,
  'adjust.apart': ({ a, b, column }) =>
    `The ${column} of ${a} and that of ${b} do not overlap, so a slope could not be told from the change: state the power, as in "adjust ${column} exponent 1.5".`,
  'adjust.unit': ({ column, units }) =>
    `The run sheets have ${column} in units of which one is not known (${units.map((unit) => unit || 'none').join(', ')}): write the same unit in each.`,
  'adjust.figure': ({ column, run, found }) =>
    found === undefined
      ? `The run sheet has no figure of ${run} under ${column}: fill it in for every run.`
      : `The run sheet has ${found} for ${run} under ${column}, and only figures above 0 can be adjusted by.`,
  'claim.which': whichSentence,
  'claim.band': claimBandSentence,
  'compare.using': () =>
    'What is compared was already cut into segments: its own window counts, not the one after using.',
  'compare.mixed': ({ sides, column, words }) =>
    `The runs of ${listed(sides.map((side, k) => (k === 0 ? side : `those of ${side}`)))} differ in ${column} (${words.join(', ')}): compare like with like, as in "where ${column} ${words[0]}", or each by itself and all together, "within ${column}".`,
  'compare.durations': ({ a, b, secondsA, secondsB }) =>
    `The runs of ${a} last ${secondsA.toFixed(1)} s on average and those of ${b} ${secondsB.toFixed(1)} s: trim both to the same stretch.`,
  'compare.rates': ({ a, b, rateA, rateB }) =>
    `${a} was sampled at ${rateA.toFixed(1)} Hz and ${b} at ${rateB.toFixed(1)} Hz: keep bands below 0.4 of the lower rate.`,
  'compare.sensors': ({ a, b, sensorsA, sensorsB, unstated }) =>
    `${a} was recorded with ${listed(sensorsA)} and ${b} with ${listed(sensorsB)}, and the calibration of ${listed(unstated)} is not stated: what the sensitivities differ by is part of the change. State it, as in "load … calibration 2 %", or record both with one sensor.`,
  'compare.windows': ({ windows }) =>
    `The spectra were made with different windows (${windows.map(({ shape, length }) => `${shape} ${length} s`).join(', ')}): use one for both.`,
  'compare.mass': conditionSentence,
  'compare.load': conditionSentence,
  'compare.pressure': conditionSentence,
  'compare.speeds': speedSentence,
  'compare.apart': apartColumnSentence,
  'compare.floor': ({ band, run, ratio, wanted }) =>
    `${bandHead(band)}: the mean square of ${run} is only ${ratio.toPrecision(2)} times that of the logger at rest, and ${wanted} times are wanted.`,
  'compare.rounding': (facts) => `${capitalised(roundingText(facts))}: too little to move the change.`,
  'compare.clipped': (facts) => `${capitalised(clippingText(facts))}: too little to move the change.`,
  'compare.small-share': ({ band, baseline, sharePercent }) =>
    `${bandHead(band)} holds only ${significant(sharePercent, 2)} % of the mean square of ${baseline}: a change there hardly changes the whole.`,
  'runs.included': ({ runs }) =>
    `Taken in although the run sheet excludes ${runs.length === 1 ? 'it' : 'them'}: ${withReasons(runs)}.`,
};

export const { tell, refuse } = messages<EvidenceFacts>(sentences);

/**
 * A note of a comparison as a warning; undefined of a level that is none, which is refused before.
 * @param names of the two sides
 * @param bands those compared, which a note about one of them is told with
 * @param stratum the one that it is about, where it is of one alone
 */
export function noteWarning(
  note: Note,
  names: SideNames,
  bands: readonly Band[],
  stratum?: string,
): Warning | undefined {
  if (note.code === 'not-a-level') return undefined;
  const { code, ...facts } = note;
  // That single strata have few runs is told in their rows, and is no fault of what they have in common.
  if (stratum !== undefined && (code === 'few-runs' || code === 'one-run-each')) return undefined;
  return 'band' in facts
    ? tell(`compare.${code}`, { ...facts, ...names, band: bands[facts.band] })
    : tell(`compare.${code}`, { ...facts, ...names });
}
