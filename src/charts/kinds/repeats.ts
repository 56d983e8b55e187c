import { repeatsKind } from '../../values/repeats.ts';
import { repeatsChart } from '../plots/repeats.ts';
import { repeatsCaption, repeatsSentence } from '../words/design.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** How many runs of each, in a sentence, and what other numbers of runs could show. */
export const presentRepeats: Presenter<'repeats'> = (value) =>
  some(
    { type: 'text', style: 'lead', text: repeatsSentence(value) },
    repeatsChart(value),
    figuresTable(repeatsCaption(value), [...repeatsKind.rows.names, ...repeatsKind.rows.columns], value.table, value),
  );
