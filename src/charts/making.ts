/** What can be made in the text of a stretch or a place that is chosen in a chart. */

export type Made = 'trim' | 'band' | 'range' | 'mark';

/** A statement as it stood when its output was made. */
export interface StatementAt {
  /** Index among the code cells of the notebook as it was run. */
  readonly cell: number;
  /** 1-based, within the cell. */
  readonly line: number;
  readonly text: string;
}

/** What may be made of a stretch of a chart. */
export interface Making {
  readonly what: Made;
  readonly axis: 'time' | 'frequency';
  /** Of several sets in one chart those that it is of; all of them unless said. */
  readonly sets?: readonly number[];
  /** The cell that is written, in words; empty for a new one below. */
  readonly where: string;
  /** Why it can't be made, where it can't. */
  readonly locked?: string;
}

/** A stretch of a chart's axis. */
export interface AxisRange {
  readonly axis: 'time' | 'frequency';
  /** In s or Hz. */
  readonly from: number;
  readonly to: number;
}

/** What is to be made, and of what: of a mark only `to` counts, the place that was reached last. */
export interface Choice extends AxisRange {
  readonly what: Made;
  readonly set: number;
  /** In s or Hz: what the chart can tell apart. */
  readonly grain: number;
}
