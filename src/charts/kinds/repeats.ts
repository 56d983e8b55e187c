import { allOf } from '../../result/words.ts';
import { repeatsKind, type RepeatsValue } from '../../values/repeats.ts';
import { percent, plain } from '../../values/number.ts';
import { repeatsChart } from '../plots/repeats.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** How many runs of each, in a sentence, and what other numbers of runs could show. */
export const presentRepeats: Presenter<'repeats'> = (value) => {
  const { power, spread, table, equivalent } = value;
  const what = equivalent === undefined ? 'Smallest reduction' : 'Smallest margin of sameness';
  const caption = `${what} shown with ${percent(power)} power at ${confidenceText(value)}, spread ${percent(spread)}`;
  return some(
    { type: 'text', style: 'lead', text: repeatsSentence(value) },
    repeatsChart(value),
    figuresTable(caption, [...repeatsKind.rows.names, ...repeatsKind.rows.columns], table, value),
  );
};

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
