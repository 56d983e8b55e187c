import { repeatsKind, type RepeatsValue } from '../../values/repeats.ts';
import { percent, plain } from '../number.ts';
import { repeatsChart } from '../plots/repeats.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** How many runs of each, in a sentence, and what other numbers of runs could show. */
export const presentRepeats: Presenter<'repeats'> = (value) => {
  const { power, confidence, spread, table, equivalent } = value;
  const what = equivalent === undefined ? 'Smallest reduction' : 'Smallest margin of sameness';
  const caption = `${what} shown with ${percent(power)} power at ${percent(confidence)} confidence, spread ${percent(spread)}`;
  return some(
    { type: 'text', style: 'lead', text: repeatsSentence(value) },
    repeatsChart(value),
    figuresTable(caption, [...repeatsKind.rows.names, ...repeatsKind.rows.columns], table, value),
  );
};

export function repeatsSentence({
  detect,
  equivalent = 0,
  spread,
  power,
  confidence,
  runs,
  reached,
}: RepeatsValue): string {
  const what =
    detect === undefined ? `that two are the same within ±${percent(equivalent)}` : `a reduction of ${percent(detect)}`;
  const wanted = `${what} with ${percent(power)} power at ${percent(confidence)} confidence, when runs scatter by ${percent(spread)}`;
  return runs === undefined
    ? `To show ${wanted}, more runs would be needed than anyone will make.`
    : `To show ${wanted}, make ${plain(runs)} runs of each in an interleaved order${reached === undefined ? '' : ` (that gives ${percent(reached)} power)`}.`;
}
