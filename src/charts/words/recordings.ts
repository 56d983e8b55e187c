import { capitalised, counted, listed, listedInFew } from '../../result/words.ts';
import { channelWords } from '../../values/resultant.ts';
import { gapCount, type Channel, type Run } from '../../values/run.ts';
import { plain, significant, printedUnit } from '../../values/number.ts';
import type { Domain } from '../axes.ts';
import { distinct, drawnQuantity } from './names.ts';

// What is said of recordings, of their course over time and of what is wrong with them.

/** Over the table of what was loaded. */
export const runsCaption = (called: string | undefined, count: number): string =>
  `${called === undefined ? '' : `${called}: `}${counted(count, 'run')}`;

/** What was done to all runs alike. */
export const historySentence = (history: readonly string[]): string => `${capitalised(history.join('; '))}.`;

/** What a title calls the runs: the run alone, else the sets, for each panel names its run; else as many runs as it can hold. */
export function shownNames(sets: number, called: readonly string[], runs: readonly string[]): string {
  if (runs.length > 1 && called.length === sets) return listed(distinct(called));
  return runs.length <= 4 ? listed(runs) : counted(runs.length, 'run');
}

/** Behind the quantity in a title. */
export const overTime = (names: string): string => `over time: ${names}`;
export const remarkedOn = 'with the places that were remarked on';

/** @param channels of the panels */
export function traceTitle(channels: readonly Channel[], about: string): string {
  const quantities = distinct(channels.map(drawnQuantity));
  const channel = channels.length === 1 ? `, channel ${channelWords(channels[0])}` : '';
  return `${capitalised(quantities.length === 1 ? quantities[0] : 'signals')} ${about}${channel}`;
}

/** @param isTrimmed whether of some run a stretch alone is in use */
export function traceSubtitle(isTrimmed: boolean, hasResultant: boolean): string {
  const trimmed = isTrimmed ? '; grey: outside the stretch in use' : '';
  const vector = hasResultant
    ? ' A resultant is drawn as the length of its vector, each axis about its mean in the stretch in use.'
    : '';
  return `Each column of the picture reaches from the lowest to the highest sample in it${trimmed}.${vector}`;
}

/** A panel in words. */
export interface TracedFacts {
  readonly label: string;
  readonly run: Run;
  readonly channel: Channel;
  /** Lowest and highest sample in use. */
  readonly extent: Domain;
  /** In use, and of the whole recording where that is more, in s. */
  readonly used: Domain;
  readonly untrimmedTo: number | undefined;
  /** What is pointed out in it. */
  readonly places: readonly string[];
}

export const traceDescription = (panels: readonly TracedFacts[], x: Domain): string =>
  `Time traces from ${plain(x.from, 5)} to ${plain(x.to, 5)} s. ${panels.map(panelSentence).join(' ')}`;

function panelSentence({ label, run, channel, extent: { from, to }, used, untrimmedTo, places }: TracedFacts): string {
  const range = `${significant(from, 3)} to ${significant(to, 3)} ${printedUnit(channel.unit.symbol)}`;
  const stretch =
    untrimmedTo === undefined
      ? ''
      : `, the stretch in use ${plain(used.from, 5)} to ${plain(used.to, 5)} s of ${plain(untrimmedTo, 5)} s`;
  const gaps = gapCount(run) > 0 ? `, ${counted(gapCount(run), 'gap')}` : '';
  const marked = places.length === 0 ? '' : `, marked: ${listed(distinct(places))}`;
  return `${label}: ${range}${stretch}${gaps}${marked}.`;
}

/** How many gaps, and how many s they miss together. */
export const gapWords = (gaps: number, missing: number): string =>
  gaps === 0 ? 'none' : `${plain(gaps)}, ${significant(missing, 2)} s in all`;

/** Of findings. */
export const noFindings = 'Nothing to remark: every check passed.';
export const findingsCaption = (counts: readonly string[]): string => `Findings: ${counts.join(', ')}`;
/** Behind the finding of some of many runs. @param others so many more, of whom it is said with figures that are less far off */
export const likewise = (runs: readonly string[], others: number): string =>
  `That is the farthest, of ${listedInFew(runs)}; ${counted(others, 'more run is', 'more runs are')} less far off.`;
