/** A stretch of a cell's text: offsets in UTF-16 units, `to` exclusive. */
export interface Place {
  readonly from: number;
  readonly to: number;
}
/** Something wrong, as a value: stable code, place in the cell, one sentence. */
export interface Problem {
  /** Stable dotted code, such as `name.unknown`, `verb.unknown`, `operand.missing`, `unit.dimension`. */
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'hint';
  readonly place: Place;
  readonly message: string;
  /** A change of text that would put it right. */
  readonly fixes?: readonly Fix[];
}
export interface Fix {
  readonly title: string;
  readonly place: Place;
  readonly text: string;
}
