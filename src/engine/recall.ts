import type { Checked } from '../language/checked.ts';
import type { Value } from '../values/value.ts';
import type { Files } from '../values/ports.ts';
import type { PlacedFailure } from './evaluation.ts';
import type { EngineFacts } from './messages.ts';
import { sourcesOf } from './sources.ts';

/** A failure with the index of the code cell it is in. */
export interface CellFailure extends PlacedFailure {
  readonly cell: number;
}

/** What is known of a notebook's statements without long work. */
export interface Recalled {
  /** By the name they are bound to. */
  readonly values: ReadonlyMap<string, Value>;
  /** Of statements that are certain to fail when they are run. */
  readonly failures: readonly CellFailure[];
  /** False if it was ended early. */
  readonly complete: boolean;
}

/** Codes of failures that say nothing against the statement itself. */
const inconclusive: readonly string[] = ['call.later', 'cancelled', 'name.failed'] satisfies (keyof EngineFacts)[];

/** Whether a failure tells that its statement is certain to fail when it is run. */
export const isConclusive = ({ code }: PlacedFailure): boolean => !inconclusive.includes(code);

/** Verbs that read their operands' descriptions and hand on the samples as they are, or that only note words. */
const cheapVerbs: ReadonlySet<string> = new Set(['channel', 'trim', 'window', 'sheet', 'plan']);

/** Bytes of raw files that may be read for one call, and for one notebook: a second's work, and a few seconds'. */
const most = { call: 4e6, notebook: 24e6 };

/** Whether a call takes little to compute: cheap verbs, and reading of small files. Made anew for each recall. */
export function quickCallsOnly(files: Files): (call: Extract<Checked, { type: 'call' }>) => Promise<boolean> {
  let left = most.notebook;
  return async (call) => {
    if (cheapVerbs.has(call.verb)) return true;
    const list = await sourcesOf(call, files);
    if (list === undefined) return false;
    // Evaluation of a call whose files can't be found says why.
    if (!list.ok) return true;
    const sizes = await Promise.all(list.value.map(({ path }) => files.identify(path))).catch(() => []);
    const bytes = sizes.reduce((sum, { bytes: size }) => sum + size, 0);
    if (bytes > most.call || bytes > left) return false;
    left -= bytes;
    return true;
  };
}
