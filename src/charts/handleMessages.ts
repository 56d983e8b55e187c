import type { Literal } from './handle.ts';
import type { AxisRange, Choice, StatementAt } from './making.ts';
import type { Output, TextPlace } from './output.ts';

/** What an output in a notebook asks of the editor; `output` is the id that the editor gave it. */
export type Asked =
  | HandleAsked
  | TakingAsked
  /** Which of these are out of date, as they have just been drawn. */
  | { readonly type: 'shown'; readonly outputs: readonly string[] }
  /** To run its cell. */
  | { readonly type: 'run'; readonly output: string }
  | LinkAsked;

/** What the links of its messages ask. */
export type LinkAsked =
  /** To open the page about a message. */
  | { readonly type: 'page'; readonly code: string }
  /** To go to the text of its cell that a message is about. */
  | { readonly type: 'text'; readonly output: string; readonly at: TextPlace };

/** What the menus of charts and tables ask. */
export type TakingAsked =
  /** To save a chart as a file; it is counted among those of its output. */
  | { readonly type: 'save picture'; readonly output: string; readonly chart: number }
  /** To save a text as a file of that name. */
  | { readonly type: 'save text'; readonly name: string; readonly text: string }
  | { readonly type: 'copy text'; readonly text: string }
  /** To copy a figure of the output's result for the prose. */
  | { readonly type: 'copy number'; readonly output: string }
  /** The answer to `rasterise`: a PNG in base64, or why there is none. */
  | { readonly type: 'rasterised'; readonly id: number; readonly png?: string; readonly failed?: string };

/** What its handles ask. */
export type HandleAsked =
  /** To write a literal, as on the release of a handle. */
  | { readonly type: 'move'; readonly output: string; readonly literal: Literal; readonly text: string }
  /** To show some outputs as they would be. */
  | {
      readonly type: 'preview';
      readonly output: string;
      readonly literal: Literal;
      readonly text: string;
      readonly seen: readonly string[];
      /** Those of which a stretch is looked at. */
      readonly closer: readonly LookedAt[];
    }
  /** To write what is made of a stretch that was chosen in a chart. */
  | { readonly type: 'make'; readonly output: string; readonly statement: StatementAt; readonly choice: Choice }
  /** To show some outputs over stretches of their axes, or whole again; nothing is written. */
  | { readonly type: 'closer'; readonly output: string; readonly wanted: readonly LookedAt[] }
  /** To take back the last literal that was written, or to write it again. */
  | { readonly type: 'undo' | 'redo'; readonly output: string };

/** An output, and the stretch of its axis that is looked at; all of it unless said. */
export interface LookedAt {
  readonly output: string;
  readonly statement: StatementAt;
  readonly over?: AxisRange;
}

/** What the editor tells the outputs. */
export type Told =
  /** A sentence to be shown at the chart: why something was not done. */
  | { readonly type: 'refused'; readonly output: string; readonly message: string }
  /** What the texts of buttons and menus are in the reader's language. */
  | { readonly type: 'words'; readonly words: Readonly<Record<string, string>> }
  /** All outputs that are out of date; the first of each cell says why. */
  | { readonly type: 'stale'; readonly marks: readonly StaleMark[] }
  /** To draw an SVG as a PNG of that size in px. */
  | {
      readonly type: 'rasterise';
      readonly id: number;
      readonly svg: string;
      readonly width: number;
      readonly height: number;
    }
  /** The answer to a preview or a closer look, to be drawn in the place of what these outputs show. */
  | {
      readonly type: 'previewed' | 'closer';
      readonly output: string;
      readonly shown: readonly { readonly output: string; readonly data: Output }[];
    };

export interface StaleMark {
  readonly output: string;
  /** A sentence; empty where another output of the cell says it. */
  readonly why: string;
}
