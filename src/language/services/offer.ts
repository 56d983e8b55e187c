import type { Place } from '../diagnostic.ts';

export type CompletionKind =
  | 'verb'
  | 'name'
  | 'keyword'
  | 'word'
  | 'unit'
  | 'file'
  | 'folder'
  | 'channel'
  | 'function'
  | 'field'
  | 'constant'
  | 'range';

export interface Completion {
  readonly label: string;
  readonly kind: CompletionKind;
  /** What it replaces. */
  readonly place: Place;
  readonly insert: string;
  /** One line beside the label. */
  readonly detail?: string;
  /** Markdown. */
  readonly doc?: string;
  /** Whether another completion is likely wanted right after, as after a folder or a verb. */
  readonly again?: boolean;
  /** Lower comes first. */
  readonly rank: number;
}

/** A completion before its place is known. */
export type Offer = Omit<Completion, 'place' | 'insert' | 'rank'> & {
  readonly insert?: string;
  readonly rank?: number;
};
