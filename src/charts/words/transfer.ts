import { listed } from '../../result/words.ts';
import type { TransferEntry, TransferValue } from '../../values/transfer.ts';
import { fixed, hertz, plain, significant, printedUnit } from '../../values/number.ts';
import { distinct, windowWords } from './names.ts';

// What is said of frequency responses.

/** `from seat to frame`, each pair once. */
export const pairsOf = (entries: readonly TransferEntry[]): string[] =>
  distinct(entries.map(({ from, to }) => `from ${from} to ${to}`));

export const responseTitle = (called: string | undefined, entries: readonly TransferEntry[]): string =>
  `Frequency response${called === undefined ? '' : ` of ${called}`} ${listed(pairsOf(entries))}`;

/** @param entries those shown */
export const responseSubtitle = (
  { window, leastCoherence }: TransferValue,
  entries: readonly TransferEntry[],
): string =>
  `H1; ${windowWords(window)}${alignedWords(entries)}. Grey: coherence below ${plain(leastCoherence)}, not to be read.`;

/** By how much the output was moved, where it was. */
function alignedWords(entries: readonly TransferEntry[]): string {
  const moved = [...new Set(entries.map(({ aligned }) => aligned))].filter((by) => by !== 0);
  if (moved.length === 0) return '';
  return `; the output was taken ${listed(moved.map((by) => `${significant(1000 * Math.abs(by), 3)} ms ${by > 0 ? 'earlier' : 'later'}`))}`;
}

/** @param top the bin of the largest response among those that can be read, where there is one @param share of those, 0 to 1 */
export function responseSentence(
  label: string,
  { magnitude, phase, spacing, unit }: TransferEntry,
  least: number,
  { top, share }: { readonly top: number | undefined; readonly share: number },
): string {
  if (top === undefined) return `${label}: the coherence is below ${plain(least)} everywhere, so nothing can be read.`;
  return `${label}: largest ${significant(magnitude[top], 3)}${unit.symbol && ` ${printedUnit(unit.symbol)}`} at ${hertz(top * spacing)}, phase ${fixed(phase[top], 1)}°; to be read in ${significant(100 * share, 2)} % of the bins.`;
}

export const responseCaption = (entries: readonly TransferEntry[], least: number): string =>
  `Frequency response ${listed(pairsOf(entries))}; read where the coherence is at least ${plain(least)}`;

export const responseHeadings = { delay: 'Output later by', share: 'Bins to be read' } as const;
