import type { NotebookRecord } from '../../notebook/record.ts';

/** A record, and what it is called where something is held against it. */
export interface Recorded {
  readonly record: NotebookRecord;
  readonly against: string;
}
