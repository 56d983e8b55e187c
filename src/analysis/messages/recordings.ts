import { messages, type Sentences } from '../../result/messages.ts';
import { formatNumber } from '../../units/format.ts';
import { capitalised, counted, listed, listedInFew } from '../../result/words.ts';
import { hertz, seconds, toMillisecond } from '../amounts.ts';
import { alsoOf } from '../together.ts';

/** Of a warning about one run that is told of others, too. */
interface Shared {
  readonly others: readonly string[];
}

interface Ends {
  readonly from: number;
  readonly to: number;
}

interface ChannelUnit {
  readonly channel: string;
  readonly unit: string;
}

type Goal = 'velocity' | 'displacement';

/** What can be said of recordings and of the conditioning of their samples. Times are in s, frequencies and rates in Hz. */
export interface RecordingFacts {
  'channel.unknown': { readonly run: string; readonly channel: string; readonly known: readonly string[] };
  'channel.few': { readonly run: string; readonly channel: string | undefined };
  'resultant.axes': {
    readonly run: string;
    readonly axes: readonly string[];
    readonly other: string;
    readonly otherAxes: readonly string[];
  };
  /** Channels of a run that are to be summed, or two sides that are to be compared. */
  'unit.mixed':
    | { readonly run: string; readonly one: ChannelUnit; readonly other: ChannelUnit }
    | { readonly a: string; readonly b: string; readonly unitA: string; readonly unitB: string };
  'unit.unsettled': {
    readonly path: string;
    readonly channel: string;
    readonly unit: string | undefined;
    /** What the reader says of it. */
    readonly finding: string | undefined;
  };
  'trim.outside': Ends & { readonly run: string; readonly length: number };
  'trim.empty': Ends & { readonly run: string };
  'load.long': { readonly run: string };
  /** `canInclude`: a comparison that can take them in; or a run that can't be taken in, and why in a sentence. */
  'runs.excluded':
    | { readonly runs: readonly LeftOut[]; readonly canInclude: boolean }
    | { readonly stillOut: string; readonly obstacle: string };
  'runs.missing': { readonly run: string; readonly path: string };
  'sheet.many': { readonly path: string; readonly files: number };
  'sheet.row': { readonly path: string } & (
    | { readonly why: 'no file'; readonly columns: readonly string[] }
    | { readonly why: 'none' }
    | { readonly why: 'excluded' | 'order'; readonly line: number; readonly cell: string }
    | { readonly why: 'twice'; readonly line: number; readonly cell: string; readonly earlier: number | undefined }
  );
  'sheet.why': { readonly file: string; readonly lines: readonly (number | undefined)[] };
  'sheet.where':
    | { readonly why: 'pairs' }
    | {
        readonly why: 'column';
        readonly file: string;
        readonly column: string;
        readonly known: readonly string[];
        readonly nearest: string | undefined;
      }
    | {
        readonly why: 'value';
        readonly file: string;
        readonly column: string;
        readonly value: string;
        readonly there: readonly string[];
      };
  'sheet.unmade': { readonly file: string; readonly lines: readonly (number | undefined)[] };
  'sheet.unlisted': { readonly path: string; readonly file: string };
  'sheet.none': { readonly file: string; readonly excluded: boolean };
  /** `verb` is what needs a uniform rate; `jitter` the steps' standard deviation over their mean. */
  'rate.uneven': {
    readonly verb: string;
    readonly run: string;
    readonly set: string | undefined;
    readonly rate: number;
  };
  /** `step` is the widest in s. */
  'rate.evened': Shared & {
    readonly verb: string;
    readonly run: string;
    readonly jitter: number;
    readonly rate: number;
    readonly step: number;
  };
  'filter.corner': { readonly run: string; readonly corner: number; readonly half: number };
  /** Samples of the longest stretch. */
  'filter.short': { readonly run: string; readonly samples: number; readonly padding: number };
  /** Stretches that are shorter than `length` in s, samples in them, and all of the run. */
  'stretch.left-out': Shared & {
    readonly step: string;
    readonly run: string;
    readonly stretches: number;
    readonly samples: number;
    readonly all: number;
    readonly length: number;
  };
  'filter.unsettled': Shared & {
    readonly run: string;
    readonly length: number;
    readonly periods: number;
    readonly corner: number;
  };
  'resample.factor': {
    readonly run: string;
    readonly from: number;
    readonly to: number;
    readonly most: number;
  };
  'resample.large': { readonly run: string; readonly most: number };
  'resample.empty': { readonly run: string };
  'resample.up': Shared & { readonly run: string; readonly rate: number };
  'resample.uneven': Shared & { readonly run: string; readonly step: number };
  /** Refused where it is past half the rate; a warning where it decides the result. */
  'integrate.low-cut':
    | { readonly run: string; readonly lowCut: number; readonly half: number }
    | (Shared & {
        readonly run: string;
        readonly channel: string;
        readonly goal: Goal;
        readonly lowCut: number;
        /** Of the mean square, just above the low cut. */
        readonly share: number;
      });
  'integrate.unit': {
    readonly run: string;
    readonly channel: string;
    readonly unit: string;
    readonly goal: Goal;
  };
  'integrate.short': Shared & {
    readonly run: string;
    readonly length: number;
    readonly periods: number;
    readonly lowCut: number;
  };
  /** The longest stretch and what each of its ends loses, in s. */
  'integrate.edges': { readonly run: string; readonly length: number; readonly edge: number; readonly lowCut: number };
  'weight.count': {
    readonly run: string;
    readonly channels: readonly string[];
    /** Whether they are the axes of a resultant. */
    readonly isOfAxes: boolean;
    readonly weightings: number;
  };
  /** `asMetric`: it was to be weighted once more for a comparison. */
  'weight.twice': {
    readonly run: string;
    readonly channel: string;
    readonly weighting: string;
    readonly asMetric: boolean;
  };
  'weight.unit': { readonly run: string; readonly channel: string; readonly unit: string };
  /** `share` of the samples in stretches shorter than a period of `frequency` in Hz, of so many stretches. */
  'weight.broken': {
    readonly run: string;
    readonly weighting: string;
    readonly frequency: number;
    readonly share: number;
    readonly stretches: number;
  };
  'weight.rate': Shared & {
    readonly run: string;
    readonly weighting: string;
    readonly highest: number;
    readonly needed: number;
    readonly rate: number;
  };
  'weight.short': Shared & {
    readonly run: string;
    readonly weighting: string;
    readonly lowest: number;
    readonly length: number;
    readonly needed: number;
  };
}

function unsettledUnit({ path, channel, unit, finding }: RecordingFacts['unit.unsettled']): string {
  if (finding !== undefined) return `${path}: ${finding}`;
  const why =
    unit === undefined
      ? `Nothing in ${path} settles the unit of ${channel}`
      : `${path} gives ${channel} in "${unit}", which is no known unit`;
  return `${why}: say it with the option unit, as in "unit g".`;
}

function sheetRow(facts: RecordingFacts['sheet.row']): string {
  const { path } = facts;
  switch (facts.why) {
    case 'no file':
      return `${path} has no column "file": it has ${facts.columns.join(', ')}, and one must name each run's recording.`;
    case 'none':
      return `${path} has a header and no runs.`;
    case 'excluded':
      return `${path}:${facts.line}: "${facts.cell}" under excluded is neither yes nor no: write why in its own column.`;
    case 'order':
      return `${path}:${facts.line}: "${facts.cell}" under order is no number: give each run's place in the day, counted from 1.`;
    case 'twice':
      return `${path}:${facts.line}: ${facts.cell} stands in line ${facts.earlier} already.`;
  }
}

function sheetWhere(facts: RecordingFacts['sheet.where']): string {
  switch (facts.why) {
    case 'pairs':
      return 'where takes pairs of a column and a value, as in where condition foam, surface brick.';
    case 'column': {
      const { file, column, known, nearest } = facts;
      const hint = nearest === undefined ? `it has ${known.join(', ')}` : `did you mean ${nearest}`;
      return `${file} has no column ${column}: ${hint}.`;
    }
    case 'value': {
      const { file, column, value, there } = facts;
      const found = there.length === 0 ? 'that column is blank' : `there is ${there.slice(0, 8).join(', ')}`;
      return `No run of ${file} has ${column} "${value}": ${found}.`;
    }
  }
}

/** A run that the run sheet leaves out, and the sheet's reason. */
export interface LeftOut {
  readonly label: string;
  readonly why: string;
}

/** The given runs with their reasons: `foam-5 (gust) and gel-2 (broken off)`. */
export const withReasons = (runs: readonly LeftOut[]): string =>
  listedInFew(runs.map(({ label, why }) => `${label} (${why})`));

function excludedSentence(facts: RecordingFacts['runs.excluded']): string {
  if ('stillOut' in facts) return `Still left out: ${facts.stillOut}. ${facts.obstacle}`;
  const { runs, canInclude } = facts;
  const leftOut = `By the run sheet ${counted(runs.length, 'run is', 'runs are')} left out: ${withReasons(runs)}.`;
  return canInclude ? `${leftOut} "including excluded" gives the result with them.` : leftOut;
}

const sentences: Sentences<RecordingFacts> = {
  'channel.unknown': ({ run, channel, known }) =>
    `${run} has no channel ${channel}: it has ${known.length === 1 ? 'only ' : ''}${listed(known)}.`,
  'channel.few': ({ run, channel = '?' }) =>
    `${run} has only the channel ${channel}: a resultant needs two or three axes.`,
  'resultant.axes': ({ run, axes, other, otherAxes }) =>
    `The resultant of ${other} is of ${listed(otherAxes)}, and that of ${run} of ${listed(axes)}: take the same axes of all, as in "channel r ${otherAxes.join(' ')}".`,
  'unit.mixed': (facts) => {
    if ('a' in facts) return `${facts.a} is in ${facts.unitA} and ${facts.b} in ${facts.unitB}: load both in one unit.`;
    const { run, one, other } = facts;
    return `In ${run}, ${one.channel} is in ${one.unit} and ${other.channel} in ${other.unit}: only axes of one unit can be summed.`;
  },
  'unit.unsettled': unsettledUnit,
  'trim.outside': ({ run, length, from, to }) =>
    `${run} runs from 0 to ${toMillisecond(length)}, and ${toMillisecond(from)} to ${toMillisecond(to)} reaches outside it.`,
  'trim.empty': ({ run, from, to }) =>
    `No sample of ${run} lies between ${toMillisecond(from)} and ${toMillisecond(to)}.`,
  'load.long': ({ run }) =>
    `${run} is too large for memory, and what calibrate gave is applied to all samples at once: state the relative uncertainty alone, or cut the file.`,
  'runs.excluded': excludedSentence,
  'runs.missing': ({ run, path }) => `The recording of ${run}, ${path}, is not there.`,
  'sheet.many': ({ path, files }) => `"${path}" stands for ${files} files, and a run sheet is one.`,
  'sheet.row': sheetRow,
  'sheet.why': ({ file, lines }) =>
    `${file} excludes ${lines.length === 1 ? 'a run' : 'runs'} without saying why (line ${listedInFew(lines.map(String))}): a reader must be able to judge it.`,
  'sheet.where': sheetWhere,
  'sheet.unmade': ({ file, lines }) => `${file} names no recording yet in line ${listedInFew(lines.map(String))}.`,
  'sheet.unlisted': ({ path, file }) => `${path} does not stand in ${file}: add a row for it.`,
  'sheet.none': ({ file, excluded }) =>
    `${file} leaves no run to load: ${excluded ? 'all of them are excluded' : 'none of them names a recording'}.`,
  'rate.uneven': ({ verb, run, set = 'runs', rate }) =>
    `${capitalised(verb)} needs a uniform rate, and ${run} is sampled too unevenly to be brought to one unasked: resample it first, as in "resample ${set} ${Math.floor(rate)} Hz".`,
  'rate.evened': ({ verb, run, jitter, rate, step, others }) =>
    `${capitalised(verb)} needs a uniform rate: the uneven samples of ${run}, whose steps vary by ${formatNumber(100 * jitter, 2)} % of their mean, were brought to ${hertz(rate)} by a cubic spline, and what is faster than ${hertz(1 / (2 * step))} is partly interpolated.${alsoOf(others)}`,
  'filter.corner': ({ run, corner, half }) =>
    `A corner at ${hertz(corner)} is not below half the rate of ${run}, which is ${hertz(half)}.`,
  'filter.short': ({ run, samples, padding }) =>
    `The longest unbroken stretch of ${run} holds ${counted(samples, 'sample')}, and this filter needs more than ${padding}: take a longer one, or a lower order.`,
  'stretch.left-out': ({ step, run, stretches, samples, all, length, others }) =>
    `${capitalised(step)} leaves out ${counted(stretches, 'unbroken stretch', 'unbroken stretches')} of ${run}, with ${samples} of its ${all} samples: ${stretches === 1 ? 'it is' : 'they are'} shorter than ${seconds(length)}, and the result of so short a stretch is mostly that of its ends.${alsoOf(others)}`,
  'filter.unsettled': ({ run, length, periods, corner, others }) =>
    `A stretch of ${run} lasts ${seconds(length)}, less than ${periods} periods of ${hertz(corner)}: much of it is the filter’s settling.${alsoOf(others)}`,
  'resample.factor': ({ run, from, to, most }) =>
    `${run} is at ${hertz(from)}, and ${hertz(to)} is more than ${most} times ${to > from ? 'faster' : 'slower'}: check the unit of the rate.`,
  'resample.large': ({ run, most }) => `${run} would grow to more than ${formatNumber(most)} samples.`,
  'resample.empty': ({ run }) => `No two readings of ${run} follow each other in time.`,
  'resample.up': ({ run, rate, others }) =>
    `${run} was sampled at ${hertz(rate)}: the higher rate adds nothing above ${hertz(rate / 2)}.${alsoOf(others)}`,
  'resample.uneven': ({ run, step, others }) =>
    `${run} was sampled unevenly, with steps up to ${formatNumber(1000 * step, 3)} ms: what is faster than ${hertz(1 / (2 * step))} is partly interpolated.${alsoOf(others)}`,
  'integrate.low-cut': (facts) => {
    const { run, lowCut } = facts;
    if ('half' in facts)
      return `The low cut of ${hertz(lowCut)} is not below half the rate of ${run}, which is ${hertz(facts.half)}.`;
    const { channel, goal, share, others } = facts;
    return `${Math.round(100 * share)} % of the mean square of the ${goal} of ${run}, ${channel}, lies between ${hertz(lowCut)} and ${hertz(2 * lowCut)}: the low cut decides this figure.${alsoOf(others)}`;
  },
  'integrate.unit': ({ run, channel, unit, goal }) =>
    `${channel} of ${run} is in ${unit || 'no unit'}: ${goal} comes from an acceleration${goal === 'displacement' ? ' or a velocity' : ''}.`,
  'integrate.short': ({ run, length, periods, lowCut, others }) =>
    `A stretch of ${run} lasts only ${seconds(length)}, less than ${periods} periods of the low cut of ${hertz(lowCut)}: take a higher low cut.${alsoOf(others)}`,
  'integrate.edges': ({ run, length, edge, lowCut }) =>
    `An integration above ${hertz(lowCut)} leaves out ${seconds(edge)} at each end, and the longest stretch of ${run} lasts only ${seconds(length)}: take a higher low cut.`,
  'weight.count': ({ run, channels, isOfAxes, weightings }) =>
    `${run} has the ${isOfAxes ? 'axes' : 'channels'} ${channels.join(', ')}, and ${weightings} weightings are given: give one for all, or one for each.`,
  'weight.twice': ({ run, channel, weighting, asMetric }) =>
    `${channel} of ${run} is weighted by ${weighting} already${asMetric ? ': leave the metric out' : ''}.`,
  'weight.unit': ({ run, channel, unit }) =>
    `${channel} of ${run} is in ${unit || 'no unit'}, and only an acceleration can be weighted: take the channels that are one.`,
  'weight.broken': ({ run, weighting, frequency, share, stretches }) =>
    stretches === 1
      ? `${run} lasts not one period of ${hertz(Number(frequency.toPrecision(2)))}, from where ${weighting} counts in full: take a longer stretch.`
      : `${Math.floor(100 * share)} % of the samples of ${run} lie in unbroken stretches of less than ${seconds(Number((1 / frequency).toPrecision(2)))}, a period of what ${weighting} counts in full, so that its level would be far too low: leave the run out, or record it without losses.`,
  'weight.rate': ({ run, weighting, highest, needed, rate, others }) =>
    `${weighting} counts frequencies up to ${hertz(highest)}, for which ${run} should be sampled at ${hertz(needed)} or more, not at ${hertz(rate)}: what is missing is not in the level.${alsoOf(others)}`,
  'weight.short': ({ run, weighting, lowest, length, needed, others }) =>
    `${weighting} counts frequencies down to ${hertz(lowest)}, and a stretch of ${run} lasts only ${seconds(length)}: take at least ${seconds(needed)}.${alsoOf(others)}`,
};

export const { tell, refuse, toldAgain } = messages<RecordingFacts>(sentences, { 'unit.unsettled': () => ['unit'] });
