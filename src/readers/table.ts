import type { Message } from '../result/result.ts';

/** A file's columns as read, before anyone has said which is the time and which an axis. */
export interface Table {
  readonly columns: readonly TableColumn[];
  readonly rows: number;
  /** Whether the file names its columns. */
  readonly named: boolean;
  /** Whether every column is a signal, by the file's format: none is a time or a counter, however it rises. */
  readonly isOfSignals?: boolean;
  /** The 1-based line of a row, where it is known. */
  readonly lineOf: (row: number) => number | undefined;
}

/** What stands above a column's rows. */
export interface ColumnText {
  /** The header as it stands, or undefined where there is none. */
  readonly header: string | undefined;
  /** The cell of a units row below the header. */
  readonly unitBelow?: string | undefined;
  /** The cell of a row such as raw, calibrated. */
  readonly kindBelow?: string | undefined;
  /** The sensor whose readings these are, where several of a long-form file stand beside each other. */
  readonly sensor?: string | undefined;
}

/** Numbers; an empty cell is NaN. `decimals` is the most digits that a cell has after its mark (may be negative). */
export interface NumberColumn extends ColumnText {
  readonly kind: 'number';
  readonly values: Float64Array;
  readonly decimals: number;
}

/** Clock stamps in s from `base` (midnight before the first, in s from 1970, where there is a date). */
export interface StampColumn extends ColumnText {
  readonly kind: 'stamp';
  readonly values: Float64Array;
  readonly base: number | undefined;
  readonly clock: boolean;
  readonly style: string;
  readonly zone: string | undefined;
  /** Step of the spelling in s: 0.001 for three digits after the seconds. */
  readonly quantum: number;
  /** Whether the date was in doubt and only the clock was read. */
  readonly doubtful: boolean;
}

/** Texts of which there are few: `values` are indices into `labels`. */
export interface LabelColumn extends ColumnText {
  readonly kind: 'label';
  readonly values: Float64Array;
  readonly labels: readonly string[];
}

/** A column of which nothing is kept. */
export interface OtherColumn extends ColumnText {
  readonly kind: 'other';
  readonly why: Message;
  /** Some of its cells, where they were looked at. */
  readonly cells?: readonly string[];
}

export type TableColumn = NumberColumn | StampColumn | LabelColumn | OtherColumn;

/** A column as a message names it: its header in quotes, or `column 3`. */
export function columnName(column: { readonly header: string | undefined }, index: number): string {
  return column.header ? `"${column.header}"` : `column ${index + 1}`;
}
