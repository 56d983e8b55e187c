import type { Handle } from './handle.ts';
import type { Making, StatementAt } from './making.ts';
import type { PaletteName } from './palettes.ts';

/**
 * What one statement shows, as plain JSON under one MIME type of our own: the same for worker, renderer, report
 * and command line.
 */
export const outputMime = 'application/vnd.washboard.output+json';

export interface Output {
  readonly version: 1;
  /** Name the value is bound to, if any. */
  readonly name: string | undefined;
  readonly kind: string;
  readonly parts: readonly Part[];
  readonly messages: readonly Message[];
  /** The whole as plain text: for other readers, for the terminal, for assistive technology. */
  readonly text: string;
  /** The reader's choice of colours; that of the theme unless said. */
  readonly palette?: PaletteName;
  /** Literals that its charts draw; none where there is nobody to write them. */
  readonly handles?: readonly Handle[];
  /** What can be made of stretches of its charts, and the statement that shows it; likewise. */
  readonly makings?: readonly Making[];
  readonly statement?: StatementAt;
}

export type Part = ChartPart | TablePart | TextPart;

/** A compiled Vega specification with its data inside. */
export interface ChartPart {
  readonly type: 'chart';
  /** What it is, for the names of files: `change`, `over-frequency`. */
  readonly what: string;
  readonly title: string;
  /** Settings and conventions, below the title; empty where there is nothing to say. */
  readonly subtitle: string;
  /** Height in px to be held free for the picture, without title and subtitle, before it is drawn. */
  readonly height: number;
  /** Vega 6 JSON without title; colours are named by role and filled in from the theme. */
  readonly vega: Readonly<Record<string, unknown>>;
  /** The chart in words: what is shown, over which range, and what stands out. */
  readonly description: string;
  /** The axis along which literals may be drawn in it, where it has one. */
  readonly axis?: ChartAxis;
}

/** The horizontal axis of a chart, or of some of its plots. */
export interface ChartAxis {
  readonly quantity: 'time' | 'frequency';
  /** Of plots under one another the set that each shows, from the top; plots beyond the last have another axis. */
  readonly sets?: readonly number[];
}

export interface TablePart {
  readonly type: 'table';
  readonly caption: string;
  readonly columns: readonly { readonly name: string; readonly unit: string; readonly align: 'left' | 'right' }[];
  /** Already formatted: a shown figure is the text that is shown everywhere. */
  readonly rows: readonly (readonly string[])[];
  /** Of second rank: on a page it opens when it is asked for; on paper it stands there as any other. */
  readonly folded?: boolean;
}

/** Sentences, a line each. */
export interface TextPart {
  readonly type: 'text';
  readonly text: string;
  /** How it is set: the answer itself, an aside, how far the answer reaches, or text whose lines and columns are to stay as they are. */
  readonly style?: 'lead' | 'aside' | 'reach' | 'verbatim';
  /** What it is called where it opens only when asked for, being of second rank. */
  readonly folded?: string;
}

/** A stretch of one line of a cell: the line, and its first and last column, from 1. */
export interface TextPlace {
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

export interface Message {
  readonly severity: 'error' | 'warning' | 'note';
  readonly code: string;
  readonly message: string;
  /** Where, in words: `cell 3, line 2, columns 5 to 9`. */
  readonly where?: string;
  /** The same, in the text of the cell that shows it. */
  readonly at?: TextPlace;
  /** Whether it keeps a verdict back, so that it stands before the answer. */
  readonly withholds?: boolean;
}
