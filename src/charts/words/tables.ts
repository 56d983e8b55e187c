import { counted } from '../../result/words.ts';

/** The last line of a table of which not all rows are told. */
export const moreRows = (rows: number): string =>
  `… and ${counted(rows, 'more row')}; \`washboard tables\` writes all of them into a file.`;

/** On the button behind the rows that are shown. */
export const rowsShown = (shown: number, all: number): string => `${shown} of ${all} rows: show more`;
