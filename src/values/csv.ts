import type { Cell, Cells } from './cells.ts';

/**
 * A table as the text of a CSV file (RFC 4180, lines ended by LF): figures in full with a decimal point, units in the headings, a
 * place without a figure empty. Texts stand as they are, control characters too: a file of data loses nothing, and whoever prints it
 * to a terminal makes them visible.
 */
export function csvOf({ columns, rows }: Pick<Cells, 'columns' | 'rows'>): string {
  return [columnHeads(columns), ...rows].map((cells) => `${cells.map(csvCell).join(',')}\n`).join('');
}

/** Headings with their units, as files have them: `rms (g)`. */
export const columnHeads = (columns: Cells['columns']): string[] =>
  columns.map(({ name, unit }) => (unit === '' ? name : `${name} (${unit})`));

/** In quotes where it has to be. */
export function csvCell(cell: Cell): string {
  const text = cell === null ? '' : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
