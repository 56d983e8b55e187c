import type { Files, History, Watch } from '../values/ports.ts';
import type { Kept } from './kept/keptAnswers.ts';

/** What the engine needs from whoever runs it: the editor, the command line and the tests each bring their own. */
export interface Host {
  /** The project's files as the notebook sees them. */
  readonly files: Files;
  /** SHA-256 of a text in lower-case hex: it keys the cache, and marks a plan. */
  readonly digest: (text: string) => string;
  /** The project's history, where it is to be told from; a record is made without. */
  readonly history?: History;
  /** Where answers are kept from one run of the program to the next. */
  readonly kept?: Kept;
  /** Lets in what is told meanwhile, where nothing else does: awaited before each statement, and before each recording that one goes over. */
  readonly breathe?: () => Promise<void>;
}

/** For what nobody waits to see the progress of, or stops. */
export const unwatched: Watch = { cancelled: () => false, progress: () => undefined };

export type { Files, History };
