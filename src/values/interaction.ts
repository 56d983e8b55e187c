import { detail, field } from './columns.ts';
import type { ComparisonRow, RowInteraction } from './comparisonParts.ts';
import type { Detail, Figure } from './description.ts';
import { list } from './jsonNumbers.ts';

/** A comparison, so far as its rows go. */
export interface WithRows {
  readonly rows: readonly ComparisonRow[];
}

/** What a row over all strata says of whether the change differs between them. */
export const interactionFigures: readonly Figure<ComparisonRow, WithRows>[] = [
  figureOf('interaction_f', ({ f }) => f, 'The F of differences between strata, over all of them', 'F between strata'),
  figureOf('interaction_p', ({ p }) => p, 'The p of that F, of the row by itself', 'p between strata'),
  figureOf(
    'interaction_p_adjusted',
    ({ pAdjusted }) => pAdjusted,
    'The p of that F for all rows together',
    'p between strata adjusted',
  ),
];

export const interactionDetails: readonly Detail<ComparisonRow, WithRows>[] = [
  detail('interaction_degrees_of_freedom', ({ interaction }) => interaction && list(interaction.df), 'numbers'),
  detail('interaction_sentence', ({ interaction }) => interaction?.sentence, 'text'),
];

function figureOf(
  key: string,
  of: (interaction: RowInteraction) => number,
  doc: string,
  heading: string,
): Figure<ComparisonRow, WithRows> {
  const read = ({ interaction }: ComparisonRow): number | undefined => interaction && of(interaction);
  return field(key, '', read, doc, {
    heading,
    inTableOf: ({ rows }) => rows.some(({ interaction }) => interaction !== undefined),
    optional: true,
    json: read,
  });
}
