import { capitalised, counted } from '../../result/words.ts';
import { isInferred, type ComparisonValue } from '../../values/comparison.ts';
import { changesWithin, outcomeWord, type ComparisonRow } from '../../values/comparisonParts.ts';
import type { Run } from '../../values/run.ts';
import { isWithheld } from '../../values/withheld.ts';
import { hertzSpan, percent, plain, probability, signed, significant, printedUnit } from '../../values/number.ts';
import type { Domain } from '../axes.ts';
import { spaced } from './limits.ts';
import { channelQuantity } from './names.ts';
import {
  bandOfRow,
  changeText,
  channelsOf,
  comparedName,
  conditionNames,
  familiesSentence,
  intervalName,
  methodSentence,
  primarySign,
  sidesWords,
} from './compared.ts';

// What the pictures of a comparison say: of the changes, of their course over frequency, and of every run.

/** Of a change over the bands. */
export const changeTitle = (value: ComparisonValue): string =>
  `Change of ${value.metric} from ${value.a.name} to ${conditionNames(value)}, ${channelsOf(value)}`;

/** How to read the marks. @param isCut whether an interval is wider than the picture */
export function changeSubtitle(value: ComparisonValue, isCut: boolean): string {
  const { margin, rows } = value;
  return [
    methodSentence(value),
    ...(isInferred(value)
      ? [`Line: ${intervalName(value)}.`, familiesSentence(value)].filter((one) => one !== '')
      : []),
    ...(rows.some(({ primary }) => primary === true)
      ? [`${primarySign()} primary: the band that the question is about.`]
      : []),
    ...(margin === undefined ? [] : [`Shaded: changes of ${marginWords(margin)}, declared to count as none.`]),
    ...(isCut ? ['An interval that reaches the edge goes on beyond it.'] : []),
  ].join(' ');
}

/** `−4.76 to +5 %`, which is as far by its factor either way. */
function marginWords(margin: number): string {
  const { from, to } = changesWithin(margin);
  return `${signed(plain(from, 3))} to ${signed(plain(to, 3))} %`;
}

export function changeDescription(value: ComparisonValue): string {
  const sentences = value.rows.map((row) => {
    const p = row.pAdjusted;
    return `${comparedName(value, row)}: ${changeText(row)}, ${outcomeWord(row.outcome, value)}${p === undefined ? '' : `, p ${probability(p)}`}.`;
  });
  return `Change of ${value.metric} from ${sidesWords(value)}, ${channelsOf(value)}${isInferred(value) ? `, with ${intervalName(value)}` : ''}. ${spaced(familiesSentence(value), ...sentences)}`;
}

/** Of a change over frequency. */
export const ratioTitle = (value: ComparisonValue): string =>
  `Change of ${amplitudeOf(value)} over frequency from ${value.a.name} to ${value.b.name}, ${channelsOf(value)}`;

/** `acceleration amplitude`; a ratio of densities has spectra. */
function amplitudeOf({ a }: ComparisonValue): string {
  const channel = a.spectrum?.entries[0]?.channel;
  return channel === undefined ? 'amplitude' : `${channelQuantity(channel)} amplitude`;
}

/** @param confidence of the interval, 0 to 1 */
export const ratioSubtitle = (confidence: number): string =>
  `Amplitude, bin by bin; band: ${percent(confidence)} interval for all bins together. It shows where to look, and no verdict rests on a bin.`;

/** @param below, above where the interval lies wholly below and above zero, in Hz */
export const ratioDescription = (
  value: ComparisonValue,
  over: Domain,
  below: readonly Domain[],
  above: readonly Domain[],
): string =>
  `Change of ${amplitudeOf(value)} from ${value.a.name} to ${value.b.name} over ${hertzSpan(over.from, over.to)}. ${whereApart(value, below, above)}`;

/** Stretches in which the interval leaves zero out; none are named where every verdict is kept back. */
function whereApart(value: ComparisonValue, below: readonly Domain[], above: readonly Domain[]): string {
  if (isWithheld(value)) return 'Every verdict is kept back here, so that no direction is told at any frequency.';
  return below.length + above.length === 0
    ? 'The interval holds zero at every frequency.'
    : `Interval wholly below zero${stretches(below)}; wholly above${stretches(above)}. No verdict rests on a bin.`;
}

const stretches = (found: readonly Domain[]): string =>
  found.length === 0
    ? ': nowhere'
    : `, widest stretches: ${found.map(({ from, to }) => hertzSpan(from, to)).join(', ')}`;

/** Of the axis of a change over frequency. */
export const ratioAxis = (value: ComparisonValue): string => `Change of ${amplitudeOf(value)} (%)`;

/** Of every run's level in a band. */
export const runOrderTitle = (value: ComparisonValue, row: ComparisonRow): string =>
  `Every run: ${value.metric}, ${bandOfRow(value, row)}, channel ${row.channel}`;

/** Whether the order is known in which the runs were made: of all, or of each stratum by itself. */
export type KnownOrder = 'all' | 'within strata' | 'not';

const orders: Readonly<Record<KnownOrder, string>> = {
  all: 'In the order in which the runs were made',
  'within strata': 'Stratum by stratum, in the order in which the runs were made',
  not: 'Set by set, for the order in which the runs were made is not known',
};

/** How the runs stand beside each other. */
export const runOrderSubtitle = (known: KnownOrder): string =>
  `${orders[known]}; the lines are the geometric means. The axis does not begin at zero.`;

export function runOrderDescription(
  value: ComparisonValue,
  row: ComparisonRow,
  made: readonly { readonly run: Run; readonly side: string; readonly rms: number }[],
  isKnown: boolean,
): string {
  const levels = made.map(({ run, side, rms }) => `${run.label} (${side}) ${significant(rms, 3)}`);
  return `${capitalised(value.metric)}, ${bandOfRow(value, row)}, of ${counted(made.length, 'run')}${isKnown ? ' in the order they were made' : ''}: ${levels.join(', ')} ${printedUnit(row.unit.symbol)}.`;
}
