import type { Message } from '../result/result.ts';

/** A stretch of a cell's text: offsets in UTF-16 units, `to` exclusive. */
export interface Place {
  readonly from: number;
  readonly to: number;
}

export type Severity = 'error' | 'warning' | 'hint';

/** What is wrong with a cell's text, and where: a message with its place and the changes that would put it right. */
export interface Diagnostic extends Message {
  readonly severity: Severity;
  readonly place: Place;
  readonly fixes?: readonly Fix[];
}

/** A change of a cell's text. */
export interface Fix {
  readonly title: string;
  readonly place: Place;
  readonly text: string;
}
