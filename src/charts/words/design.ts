import { allOf, capitalised, counted } from '../../result/words.ts';
import { conditionNamed, type OrderValue } from '../../values/order.ts';
import type { RepeatsValue } from '../../values/repeats.ts';
import type { WindowValue } from '../../values/window.ts';
import { percent, plain, significant } from '../../values/number.ts';
import { windowWords } from './names.ts';

// What is said while a study is laid out: of the number of runs, their order, the run sheet and the window.

/** `95 % confidence`, of several conditions for all changes together. */
const confidenceText = ({ confidence, conditions = 2 }: RepeatsValue): string =>
  `${percent(confidence)} confidence${conditions === 2 ? '' : ` for ${allOf(conditions - 1, 'changes')} together`}`;

export function repeatsSentence(value: RepeatsValue): string {
  const { detect, equivalent = 0, spread, power, runs, reached } = value;
  const what =
    detect === undefined ? `that two are the same within ±${percent(equivalent)}` : `a reduction of ${percent(detect)}`;
  const wanted = `${what} with ${percent(power)} power at ${confidenceText(value)}, when runs scatter by ${percent(spread)}`;
  return runs === undefined
    ? `To show ${wanted}, more runs would be needed than anyone will make.`
    : `To show ${wanted}, make ${plain(runs)} runs of each in an interleaved order${reached === undefined ? '' : ` (that gives ${percent(reached)} power)`}.`;
}

/** What so many runs can show, in a noun. */
const shownBy = ({ detect }: RepeatsValue): string => (detect === undefined ? 'margin of sameness' : 'reduction');

/** Over the table of what other numbers of runs could show. */
export const repeatsCaption = (value: RepeatsValue): string =>
  `Smallest ${shownBy(value)} shown with ${percent(value.power)} power at ${confidenceText(value)}, spread ${percent(value.spread)}`;

export const repeatsTitle = ({ spread }: RepeatsValue): string =>
  `What so many runs of each can show, when runs scatter by ${percent(spread)}`;

export const repeatsSubtitle = (value: RepeatsValue): string =>
  `Smallest ${shownBy(value)} shown with ${percent(value.power)} power at ${percent(value.confidence)} confidence; the dashed line is the ${percent(wantedOf(value))} asked for.`;

/** What is to be shown, as a fraction. */
export const wantedOf = ({ detect, equivalent = 0 }: RepeatsValue): number => detect ?? equivalent;

export function repeatsDescription(value: RepeatsValue): string {
  const { runs, table } = value;
  const needed = runs === undefined ? 'No number of runs in the table is enough' : `${runs} runs of each are needed`;
  const rows = table.map((row) => `${row.runs} runs: ${significant(row.smallestPercent, 2)} %`);
  return `${needed} for ${percent(wantedOf(value))}. ${rows.join('; ')}.`;
}

/** Of the axes. */
export const repeatsAxes = (value: RepeatsValue): { runs: string; smallest: string } => ({
  runs: 'Runs of each condition',
  smallest: `Smallest ${shownBy(value)} shown (%)`,
});

/** Of a row, where it is pointed at. */
export const repeatsTip = ({ runs, smallestPercent, halfWidthPercent }: RepeatsValue['table'][number]): string =>
  `${runs} runs of each: ${significant(smallestPercent, 3)} %\ninterval ± ${significant(halfWidthPercent, 3)} %`;

/** The order as it is to be ridden, and what a steady drift would do to it. */
export function orderText({ scheme, sequence, leanPercent, conditions }: OrderValue): string {
  const lines = [`${scheme}: ${sequence.join(' ')}`];
  const letters = [...new Set(sequence)].sort();
  if (letters.some((letter) => conditionNamed(letter, conditions) !== letter)) {
    const names = letters.map((letter) => `${letter} is ${conditionNamed(letter, conditions)}`).join(', ');
    lines.push(`${names}: ${sequence.map((letter) => conditionNamed(letter, conditions)).join(', ')}.`);
  }
  lines.push(
    Math.abs(leanPercent) < 1e-9
      ? 'A steady drift from run to run cancels out.'
      : `A steady drift of 1 % a run would lean the change by ${plain(leanPercent, 3)} %.`,
  );
  return lines.join('\n');
}

/** Over the run sheet as text. */
export const sheetToFill = 'Run sheet to be filled in, as CSV:';

/** Over a run sheet as read. @param excluded how many rows are */
export const sheetCaption = (file: string, rows: number, excluded: number): string =>
  `${file}: ${counted(rows, 'run')}${excluded === 0 ? '' : `, ${excluded} excluded`}`;

export const windowSentence = (window: WindowValue): string =>
  `${capitalised(windowWords(window))}: bins of a spectrum lie ${plain(1 / window.length, 4)} Hz apart.`;
