import type { ColumnSink } from './sink.ts';

/** What the scanner needs to know about the rows. */
export interface Plan {
  readonly delimiter: number;
  /** Whether any run of blanks parts the fields. */
  readonly blanks: boolean;
  readonly decimal: number;
  /** The byte that may end a row after its last field: the delimiter where rows end with one, or 0. */
  readonly tail: number;
  readonly sinks: readonly ColumnSink[];
}

/** Where a scan stands: next byte, next row, and the 1-based line that holds that byte. */
export interface Cursor {
  at: number;
  row: number;
  line: number;
}
