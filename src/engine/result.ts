import type { ValueKind } from '../language/form.ts';
import type { Place } from '../language/diagnostic.ts';
import type { Value } from '../values/value.ts';
import type { RawFile } from '../values/run.ts';
import type { Message, Warning } from '../result/result.ts';

/** What one statement gave. Exactly one of `value` and `error` is there once it has run. */
export interface StatementResult {
  /** Index of the cell among the notebook's code cells, from 0. */
  readonly cell: number;
  /** 1-based line within the cell on which the statement begins. */
  readonly line: number;
  readonly name: string | undefined;
  /** Its name, else its verb and what it uses: `compare-foam-gel`. Not unique. */
  readonly called: string;
  /** The bound name that it shows and does nothing else with. */
  readonly shows?: string;
  readonly kind: ValueKind | undefined;
  readonly value: Value | undefined;
  readonly warnings: readonly Warning[];
  readonly error: StatementError | undefined;
  /** Whether the value came whole from the cache. */
  readonly cached: boolean;
  /** Whether the notebook shows it: the last statement of its cell, or one that binds no name. */
  readonly shown: boolean;
  /** Whether it asks for its unit itself, by `in`. */
  readonly unitAsked?: boolean;
}

export interface StatementError extends Message {
  /** Its cell for a reader: `cell 7, Foam on bricks`. */
  readonly inCell: string;
  /** Within the cell's text. */
  readonly place: Place;
  /** 1-based line within the cell, and first and last column on that line, 1-based, both inclusive. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

export interface RunReport {
  /** False when a statement of a wanted cell, or one that it needs, failed. */
  readonly ok: boolean;
  readonly cancelled: boolean;
  /** Of the wanted cells and of all that they needed, in text order. */
  readonly results: readonly StatementResult[];
  /** Every raw file that was read, sorted by path, each once. */
  readonly sources: readonly RawFile[];
  /** Content keys by cell, of those that were asked for. */
  readonly keys: CellKeys;
}

/**
 * Content keys by the cell's index: a cell's changes exactly when what the cell shows would change, through its own
 * text, through what it uses, or through a raw file.
 */
export type CellKeys = ReadonlyMap<number, string>;

export interface RunRequest {
  /** The notebook's code cells, as text. */
  readonly cells: readonly string[];
  /** What the reader counts each cell as, from 1; their places among `cells` unless said. */
  readonly numbers?: readonly number[];
  /** Indices of the cells to show; what they need is brought up to date first. */
  readonly wanted: 'all' | readonly number[];
  /** Indices of the cells that are to be run after these: what they ask of each recording is made while it is at hand. */
  readonly soon?: readonly number[];
  /** Indices of the cells whose content keys the report is to hold; none unless said. */
  readonly keyed?: readonly number[];
  /** Given, nothing is computed of recordings, and it is told of the files of those of which nothing is kept. */
  readonly collecting?: (path: string) => void;
  /** Nothing is told of the project's history, as in a record, which must be the same in every clone. */
  readonly withoutHistory?: boolean;
  /** Nobody draws what the cells show, so that no samples are read again for it. */
  readonly undrawn?: boolean;
}

/**
 * Where a place stands in its cell, for a reader: 1-based line, 1-based inclusive columns on that line.
 * @param statement the one that the place lies in, with its line: the text above it need not be counted again
 */
export function locate(
  text: string,
  place: Place,
  statement: { readonly place: Place; readonly line: number },
): { line: number; from: number; to: number } {
  const first = lineStart(text, statement.place.from);
  const start = lineStart(text, place.from);
  const line = statement.line + text.slice(first, start).split(/\r\n|\r|\n/).length - 1;
  const rest = text.slice(place.from, place.to).split(/\r|\n/)[0];
  const from = place.from - start + 1;
  return { line, from, to: Math.max(from, from + rest.length - 1) };
}

/** Offset of the first character of the line that an offset lies in. */
function lineStart(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start--;
  return start;
}
