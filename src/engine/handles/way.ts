import type { Choice, Made } from '../../charts/making.ts';
import type { CheckedNotebook } from '../../language/check.ts';
import type { CheckedStatement } from '../../language/checked.ts';
import type { TextChange } from './change.ts';

/** A way in which something is made of a stretch of a chart. */
export interface Way {
  readonly what: Made;
  readonly axis: 'time' | 'frequency';
  readonly sets?: readonly number[];
  /** The cell that is written; undefined for a new one below. */
  readonly cell: number | undefined;
  readonly locked?: string;
  /** Undefined where the stretch is too short for it. */
  write(choice: Choice): TextChange | undefined;
}

export const edited = (edits: TextChange['edits'] | undefined): TextChange | undefined => edits && { edits };

/** What a statement's value is called by in another statement: its name, else its text. */
export const calledAs = (notebook: CheckedNotebook, { cell, name, place }: CheckedStatement): string =>
  name?.text ?? `(${notebook.cells[cell].text.slice(place.from, place.to)})`;
