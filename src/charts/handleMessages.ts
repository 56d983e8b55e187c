import type { Literal } from './handle.ts';
import type { Output } from './output.ts';

/** What a chart in a notebook asks of the editor; `output` is the id that the editor gave its output. */
export type Asked =
  /** To write a literal, as on the release of a handle. */
  | { readonly type: 'move'; readonly output: string; readonly literal: Literal; readonly text: string }
  /** To show some outputs as they would be. */
  | {
      readonly type: 'preview';
      readonly output: string;
      readonly literal: Literal;
      readonly text: string;
      readonly seen: readonly string[];
    }
  /** To take back the last literal that was written, or to write it again. */
  | { readonly type: 'undo' | 'redo'; readonly output: string };

/** What the editor tells a chart. */
export type Told =
  /** A sentence to be shown at the chart: why something was not done. */
  | { readonly type: 'refused'; readonly output: string; readonly message: string }
  /** The answer to a preview, to be drawn in the place of what these outputs show. */
  | {
      readonly type: 'previewed';
      readonly output: string;
      readonly shown: readonly { readonly output: string; readonly data: Output }[];
    };
