import { csvCell } from '../values/csv.ts';
import { columnTitle } from './text.ts';
import type { TablePart } from './output.ts';

/** A shown table for other programs: what can be read on the page, figures with a hyphen for a minus and without thin spaces. */

/** For a spreadsheet to be pasted into: columns parted by tabs. */
export const tableTsv = (table: TablePart): string =>
  lines(table, (cells) => cells.map((cell) => cell.replace(/\s+/g, ' ')).join('\t'));

/** As a CSV file (RFC 4180, lines ended by LF). */
export const tableCsv = (table: TablePart): string => lines(table, (cells) => cells.map(csvCell).join(','));

/** For prose: figures stay as they are shown. */
export function tableMarkdown({ columns, rows }: TablePart): string {
  const written = (cells: readonly string[]): string =>
    `| ${cells.map((cell) => cell.replace(/\s+/g, ' ').replace(/[\\|]/g, '\\$&')).join(' | ')} |\n`;
  const rule = columns.map(({ align }) => (align === 'right' ? '--:' : '---'));
  return [headsOf({ columns }), rule, ...rows].map(written).join('');
}

function lines(table: TablePart, line: (cells: readonly string[]) => string): string {
  const rows = table.rows.map((row) =>
    row.map((cell, at) => (table.columns[at]?.align === 'right' ? plainFigure(cell) : cell)),
  );
  return [headsOf(table), ...rows].map((cells) => `${line(cells)}\n`).join('');
}

const headsOf = ({ columns }: Pick<TablePart, 'columns'>): string[] =>
  columns.map(({ name, unit }) => columnTitle(name, unit));

const plainFigure = (text: string): string => text.replaceAll('−', '-').replace(/[\u2009\u202f]/g, '');
