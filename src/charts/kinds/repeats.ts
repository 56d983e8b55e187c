import type { RepeatsValue } from '../../values/repeats.ts';
import { aligned, percent, plain } from '../number.ts';
import { repeatsChart } from '../plots/repeats.ts';
import { columns, some, type Presenter } from './kind.ts';

/** How many runs of each, in a sentence, and what other numbers of runs could show. */
export const presentRepeats: Presenter<'repeats'> = (value) => {
  const smallest = aligned(
    value.table.map((row) => row.smallestPercent),
    3,
  );
  const halves = aligned(
    value.table.map((row) => row.halfWidthPercent),
    3,
  );
  return some({ type: 'text', style: 'lead', text: repeatsSentence(value) }, repeatsChart(value), {
    type: 'table',
    caption: `Smallest reduction shown with ${percent(value.power)} power at ${percent(value.confidence)} confidence, spread ${percent(value.spread)}`,
    columns: columns(['Runs of each', ''], ['Smallest reduction', '%'], ['Half-width of the interval', '%']),
    rows: value.table.map((row, index) => [String(row.runs), smallest[index], halves[index]]),
  });
};

export function repeatsSentence({ detect, spread, power, confidence, runs, reached }: RepeatsValue): string {
  const wanted = `a reduction of ${percent(detect)} with ${percent(power)} power at ${percent(confidence)} confidence, when runs scatter by ${percent(spread)}`;
  return runs === undefined
    ? `To show ${wanted}, more runs would be needed than anyone will make.`
    : `To show ${wanted}, make ${plain(runs)} runs of each${reached === undefined ? '' : ` (that gives ${percent(reached)} power)`}.`;
}
