/** A range or a place of the text that a chart draws along its axis, and the literals by which it can be moved. */
export interface Handle {
  /** What it is: `trim`, `primary band`, `corner of highpass`. */
  readonly name: string;
  /** The cell that a move writes, in words. */
  readonly where: string;
  readonly axis: 'time' | 'frequency';
  /** Of several sets in one chart those that it is of, by their place in it; all of them unless said. */
  readonly sets?: readonly number[];
  /** One, or the lower and the upper one. */
  readonly ends: readonly HandleEnd[];
  /** Why it can't be moved, where it can't. */
  readonly locked?: string;
}

export interface HandleEnd {
  /** `start`, `upper edge`; empty where there is one alone. */
  readonly word: string;
  /** Place on the chart's axis, in s or Hz. */
  readonly at: number;
  /** How far it may go, in s or Hz. */
  readonly least?: number;
  readonly most?: number;
  /** The cell that a move of it writes, in words, where that is another than the handle's. */
  readonly where?: string;
  /** The number that it writes; none of an end that follows from something else. */
  readonly literal?: Literal;
  /** Whether the other end goes along. */
  readonly carries?: boolean;
}

/** A number as it stands in a cell. */
export interface Literal {
  /** Index among the code cells of the notebook as it was run. */
  readonly cell: number;
  /** Offsets in the cell of the number alone, without its unit. */
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** As it is spelled. */
  readonly unit: string;
  /** Size of the unit in s or Hz. */
  readonly factor: number;
  /** Where 0 lies on the chart's axis in s or Hz, and which way the number counts. */
  readonly origin: number;
  readonly sign: 1 | -1;
  /** By which it is found again once the text has changed. */
  readonly slot: LiteralSlot;
}

/** What a number is to the text: an argument of a verb, or what is bound to a name. */
export interface LiteralSlot {
  /** Name that its statement binds; empty for none. */
  readonly name: string;
  /** Empty where the number itself is bound. */
  readonly verb: string;
  /** Operand or option, which of its entries, and which part of that. */
  readonly slot: string;
  readonly entry: number;
  readonly part: number;
}

/** A change of one cell's text. */
export interface TextEdit {
  readonly cell: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}
