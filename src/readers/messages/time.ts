import type { Sentences } from '../../result/messages.ts';
import { counted, listedInFew } from '../../result/words.ts';
import type { Disorder } from '../clock/order.ts';
import type { LeftOut } from '../recording.ts';
import { atLine, figure, inQuotes, percent, quote, times } from './words.ts';

interface Column {
  readonly path: string;
  /** The column as a message names it: its header in quotes, or its number. */
  readonly column: string;
}

/** One reading of a column of numbers as time: its unit, and the rate in Hz that it gives. */
interface ScaleReading {
  readonly unit: string;
  readonly rate: number;
}

/** One reading of a column without a unit: the rate in Hz and the length of the recording in s that it gives. */
export interface UnitReading extends ScaleReading {
  readonly length: number;
}

/** A unit that was taken because it is the likelier one, and the next likely. */
export interface AssumedUnit {
  readonly column: string;
  readonly taken: UnitReading;
  readonly other: UnitReading;
}

/** What a message tells of the time column, the rate, and of what the stamps show. Times in s, rates in Hz. */
export interface TimeFacts {
  timezone: { readonly path: string; readonly timezone: string };
  'no-time-column': { readonly path: string; readonly name: string; readonly columns: readonly string[] };
  'time-not-numbers': { readonly path: string; readonly name: string };
  /** `isChosen`: whether the option named the column. */
  'time-stands-still': Column & { readonly isChosen: boolean };
  'time-or-counter': Column;
  /** Either no unit fits the step, or several do. */
  'time-unit': Column &
    ({ readonly step: number; readonly rate: number | undefined } | { readonly readings: readonly ScaleReading[] });
  'time-unit-assumed': AssumedUnit;
  'times-differ': {
    readonly path: string;
    readonly columns: readonly [string, string];
    readonly rates: readonly [number, number];
  };
  /** Rates of hours and minutes, and of minutes and seconds. */
  'clock-parts': Column & { readonly rates: readonly [number, number] };
  'rows-disordered': Column & Disorder;
  'rate-impossible': Column & { readonly rate: number };
  'no-rate': {
    readonly path: string;
    readonly counter: string | undefined;
    readonly leftOut: readonly LeftOut[];
    /** A column that is a time by its name and holds text. */
    readonly ofText: { readonly column: string; readonly text: string } | undefined;
    /** Whether the unit must be stated as well. */
    readonly lacksUnit: boolean;
  };
  rush: { readonly rows: number };
  'stamps-astray': { readonly rows: number; readonly line: number | undefined };
  'rate-differs': { readonly measured: number; readonly off: number; readonly stated: number; readonly name: string };
  /**
   * `least`: what the densest rows give, where that is above the rate over all. `lost`: samples by those rows, and as many as
   * the gaps leave out.
   */
  'rate-uncertain': {
    readonly rate: number;
    readonly least: number | undefined;
    readonly quantum: number;
    readonly lost: { readonly least: number; readonly most: number } | undefined;
  };
  gap: {
    readonly gaps: number;
    readonly missing: number;
    readonly share: number;
    readonly first: number;
    readonly line: number | undefined;
    readonly longest: number;
  };
  bursts: { readonly repeated: number; readonly backward: number; readonly rate: number };
  /** `each` is by how much one lost sample that they hide makes the rate too low, as a share; none where each shows. */
  'coarse-stamps': { readonly quantum: number; readonly rate: number; readonly each: number | undefined };
  'rounded-stamps': { readonly quantum: number; readonly each: number | undefined };
  /** `other`: the rate in Hz where `share` of the samples is lost. */
  'rounded-or-lost': {
    readonly quantum: number;
    readonly rate: number;
    readonly other: number;
    readonly share: number;
  };
  'stamps-out-of-order': { readonly repeated: number; readonly backward: number };
  uneven: { readonly jitter: number; readonly treatment: 'refused' | 'resampled' | 'taken as even' };
  'clock-reset': { readonly resets: number; readonly line: number | undefined };
  'clock-stopped': { readonly rows: number; readonly line: number | undefined; readonly rate: number };
}

function noRate({ path, counter, leftOut, ofText, lacksUnit }: TimeFacts['no-rate']): string {
  const what =
    counter === undefined ? 'no column tells the time' : `${counter} counts rows and no column tells the time`;
  const others =
    leftOut.length > 0 ? ` (${leftOut.map(({ column, why }) => `${column}: ${why.message}`).join('; ')})` : '';
  const text = ofText ? ` (${ofText.column} holds text such as ${quote(ofText.text)})` : '';
  const unit = lacksUnit ? ', and nothing settles the unit' : '';
  const advice = lacksUnit ? 'state both, such as rate 400 Hz unit g' : 'state the rate with rate, such as rate 400 Hz';
  return `${path}: ${what}${others}${text}${unit}: ${advice}, or name the time column with time.`;
}

function timeUnit(facts: TimeFacts['time-unit']): string {
  const { path, column } = facts;
  if ('readings' in facts) {
    const readings = facts.readings.map(({ unit, rate }) => `${unit} (${figure(rate)} Hz)`);
    return `${path}: ${column} has no unit and reads as ${listedInFew(readings, 'and as')}: state the rate with rate, which settles it.`;
  }
  const stated = facts.rate === undefined ? '' : ` or at the stated ${figure(facts.rate)} Hz`;
  return `${path}: the numbers of ${column} (step ${figure(facts.step)}) are no time in s, ms or us at a rate that vibration is sampled at${stated}: name the time column with time, or state the rate with rate.`;
}

function rowsDisordered(facts: TimeFacts['rows-disordered']): string {
  const from = `${facts.path}: by ${facts.column} `;
  const sort = 'sort the rows by time in a copy of the file, and look at what sends them.';
  switch (facts.why) {
    case 'behind': {
      const { again, behind } = facts;
      return `${from}${counted(again, 'row')} ${again === 1 ? 'was' : 'were'} sent twice, and without ${again === 1 ? 'it' : 'them'} ${counted(behind, 'stamp')} still ${behind === 1 ? 'runs' : 'run'} backwards, so that nobody can tell the order of the samples: ${sort}`;
    }
    case 'differ':
      return `${from}${counted(facts.again, 'row')} ${facts.again === 1 ? 'comes' : 'come'} late under stamps that have been before, with other readings, so that nobody can tell which of them count: keep one row a stamp in a copy of the file, and look at what sends them.`;
    case 'late':
      return `${from}${counted(facts.late, 'row')} ${facts.late === 1 ? 'belongs' : 'belong'} into gaps before ${facts.late === 1 ? 'it' : 'them'}, so that the rows are in no order: ${sort}`;
  }
}

function gap({ gaps, missing, share, first, line, longest }: TimeFacts['gap']): string {
  const [what, which] = gaps === 1 ? ['A gap leaves', 'gap'] : [`${gaps} gaps leave`, 'first'];
  return `${what} out ${missing === 1 ? '1 sample' : `${missing} samples`} (${percent(share)}), the ${which} at ${figure(first)} s${atLine('line', line)}, the longest ${figure(longest)} s: no segment of a spectrum crosses a gap.`;
}

function rateUncertain({ rate, least, quantum, lost }: TimeFacts['rate-uncertain']): string {
  const known = least === undefined ? '' : `, and ${figure(least)} Hz at least where none is lost`;
  const count =
    lost === undefined
      ? ''
      : lost.most > lost.least
        ? ` (${lost.least} to ${lost.most} samples)`
        : ` (${counted(lost.least, 'sample')} at least)`;
  return `Stamps are in steps of ${figure(quantum)} s, about as coarse as the time between samples, and show that some are lost${count}, but not each of them: the rate is ${figure(rate)} Hz as far as they tell${known}, so state it with rate, or record finer stamps.`;
}

const clockParts = ({ path, column, rates: [long, short] }: TimeFacts['clock-parts']): string =>
  `${path}: ${column} has two parts, which are hours and minutes (${figure(long)} Hz) or minutes and seconds (${figure(short)} Hz): say which with clock "hh:mm" or clock "mm:ss".`;

const hidden = (each: number | undefined): string =>
  each === undefined
    ? ''
    : ` As these are about as coarse as the time between samples, one that is lost may not show, and makes the rate ${percent(each)} too low.`;

/** Stamps that repeat the one before, that run backwards, or both. */
function outOfOrder(repeated: number, backward: number): string {
  const repeat = `${counted(repeated, 'stamp')} ${repeated === 1 ? 'repeats' : 'repeat'} the one before`;
  if (backward === 0) return repeat;
  const back = `${backward === 1 ? 'runs' : 'run'} backwards`;
  return repeated === 0 ? `${counted(backward, 'stamp')} ${back}` : `${repeat} and ${backward} ${back}`;
}

const treatments: Readonly<Record<TimeFacts['uneven']['treatment'], string>> = {
  refused:
    'levels are of the samples as logged, and what needs a uniform rate, as a spectrum does, asks for resample first',
  resampled:
    'levels are of the samples as logged, and what needs a uniform rate, as a spectrum does, brings them to one and says so',
  'taken as even': 'taken as even',
};

export const timeSentences: Sentences<TimeFacts> = {
  timezone: ({ path, timezone }) =>
    `${path}: timezone "${timezone}" is not an offset from UTC: write one such as timezone "+02:00", or "local".`,
  'no-time-column': ({ path, name, columns }) =>
    `${path}: there is no column "${name}" to read as time; the columns are ${listedInFew(inQuotes(columns))}.`,
  'time-not-numbers': ({ path, name }) =>
    `${path}: the column "${name}" holds neither numbers nor clock stamps, so it can't be read as time: name another with time.`,
  'time-stands-still': ({ path, column, isChosen }) =>
    `${path}: ${column} does not run forward, so it tells no rate: name another column with time, or ${isChosen ? 'leave time out and ' : ''}state the rate with rate.`,
  'time-or-counter': ({ path, column }) =>
    `${path}: ${column} goes up by exactly 1 from row to row, which reads as milliseconds at 1000 Hz and as a count of rows: say which with rate, such as rate 1000 Hz.`,
  'time-unit': timeUnit,
  'time-unit-assumed': ({ column, taken, other }) => {
    const words = ({ unit, rate, length }: UnitReading): string => `${unit} (${figure(rate)} Hz, ${figure(length)} s)`;
    return `${column} has no unit: it was read as ${words(taken)}, which is likelier than ${words(other)}; state the rate with rate to settle it.`;
  },
  'times-differ': ({ path, columns: [one, two], rates }) =>
    `${path}: ${one} and ${two} are both times but do not agree (${figure(rates[0])} Hz and ${figure(rates[1])} Hz): name the right one with time.`,
  'rows-disordered': rowsDisordered,
  'rate-impossible': ({ path, column, rate }) =>
    `${path}: by ${column} the rate would be ${figure(rate)} Hz, which no logger has: name another column with time, or state the rate with rate.`,
  'no-rate': noRate,
  rush: ({ rows }) =>
    `${counted(rows, 'row')} right after gaps ${rows === 1 ? 'has a stamp' : 'have stamps'} in a rush, so that nobody can tell when ${rows === 1 ? 'it was sampled; it was' : 'they were sampled; they were'} left out.`,
  'stamps-astray': ({ rows, line }) =>
    `${counted(rows, 'stamp')} ${rows === 1 ? 'is' : 'are'} far off${atLine('first at line', line)}, though the rows around go on as if nothing had been: ${rows === 1 ? 'that row was' : 'those rows were'} taken as even between them.`,
  'rate-differs': ({ measured, off, stated, name }) =>
    `The stamps give ${figure(measured)} Hz, ${percent(Math.abs(off))} ${off > 0 ? 'above' : 'below'} the ${figure(stated)} Hz of ${name}; frequencies scale with the rate, so check which is right.`,
  'clock-parts': clockParts,
  'rate-uncertain': rateUncertain,
  gap,
  bursts: ({ repeated, backward, rate }) =>
    `${outOfOrder(repeated, backward)}, as where samples are delivered in bursts: samples are taken as even at ${figure(rate)} Hz, the slope of the stamps.`,
  'coarse-stamps': ({ quantum, rate, each }) =>
    `Stamps are in steps of ${figure(quantum)} s that several samples share: samples are taken as even at ${figure(rate)} Hz.${hidden(each)}`,
  'rounded-or-lost': ({ quantum, rate, other, share }) =>
    `Stamps are whole steps of ${figure(quantum)} s, to which hardly a logger rounds. Samples are taken as even at ${figure(rate)} Hz; but if the logger takes them at ${figure(other)} Hz, ${percent(share)} of them are lost and every frequency reads that much too low: look up its rate, and state it with rate.`,
  'rounded-stamps': ({ quantum, each }) =>
    `Stamps are rounded to ${figure(quantum)} s, which explains all of their unevenness.${hidden(each)}`,
  'stamps-out-of-order': ({ repeated, backward }) =>
    `${outOfOrder(repeated, backward)}; the order of the rows was kept.`,
  uneven: ({ jitter, treatment }) =>
    `Steps between samples vary by ${percent(jitter)} of their mean: ${treatments[treatment]}.`,
  'clock-reset': ({ resets, line }) =>
    `The clock jumps back ${times(resets)}${atLine('first break at line', line)}: what follows is taken as a stretch of its own, of which nobody knows how much later it began.`,
  'clock-stopped': ({ rows, line, rate }) =>
    `The clock stands still over ${rows} rows${atLine('first from line', line)}, so that nobody can tell when they were sampled: they are taken as even at ${figure(rate)} Hz, or trim them off.`,
};
