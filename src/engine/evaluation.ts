import type { CellName } from '../language/cellName.ts';
import type { Checked, CheckedStatement } from '../language/checked.ts';
import type { Place } from '../language/diagnostic.ts';
import type { Failure, Message, Result } from '../result/result.ts';
import type { Watch } from '../values/ports.ts';
import type { Value } from '../values/value.ts';
import type { Cache } from './cache.ts';
import type { Files, History } from './host.ts';
import type { KeptAnswers } from './kept/keptAnswers.ts';
import type { Keys } from './key.ts';
import type { HeldForCharts } from './parts/held.ts';
import type { Part, Source } from './parts/part.ts';
import type { PinnedFiles } from './pinned.ts';

export type Call = Extract<Checked, { type: 'call' }>;

/** A failure with the place of what is to blame. */
export interface PlacedFailure extends Failure {
  readonly place: Place;
}

export type Evaluated<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: PlacedFailure };

/** What evaluation of one statement needs; one object a statement, since it gathers that statement's warnings. */
export interface EvaluationContext {
  readonly files: Files & Partial<Pick<PinnedFiles, 'ahead'>>;
  readonly watch: Watch;
  readonly cache: Cache;
  /** What was kept by earlier runs of the program. */
  readonly kept?: KeptAnswers | undefined;
  /** What recordings gave, with its samples, by the keys by which it is kept once all have stayed at hand. */
  readonly samples?: Map<string, Part>;
  /** What recordings gave, with samples that are going to be drawn. */
  readonly held?: HeldForCharts;
  readonly keys: Keys;
  readonly digest: (text: string) => string;
  readonly valueOf: (name: string) => Value | undefined | Promise<Value | undefined>;
  /** Whether a name has a value, or will have one. */
  readonly isBound: (name: string) => boolean;
  /** The statement that binds a name, for a reader. */
  readonly boundAt?: (name: string) => { readonly cell: CellName; readonly line: number } | undefined;
  /** What is bound to a name, as it stands in the text. */
  readonly boundTo: (name: string) => Checked | undefined;
  readonly history?: History;
  /** Lets in what is told meanwhile, as of the host. */
  readonly breathe?: () => Promise<void>;
  /** A call as it is written, where it is all of a statement but its name. */
  readonly sourceOf?: (call: Call) => string | undefined;
  /** What is evaluated: it tells the inputs of its uncertainties from those of others. */
  readonly statement?: Pick<CheckedStatement, 'name' | 'place' | 'cell' | 'line'>;
  /** Whether a call that is not in the cache may be computed; all may unless said. */
  readonly mayCompute?: (call: Call) => Promise<boolean>;
  /** What was made of recordings as they were read, before anybody asked for it: it counts as computed where it is asked for. */
  readonly ahead?: ReadonlySet<string>;
  /** Makes of a recording that was read just now what else is asked of it. */
  readonly beside?: (recording: AtHand) => Promise<void>;
  /** How the recordings are shared out among processes, where they are. */
  readonly sharing?: Sharing | undefined;
}

/** A recording whose samples are at hand. */
export interface AtHand {
  readonly source: Source;
  /** What lists it, and what the set is called there. */
  readonly load: Checked;
  readonly set: string | undefined;
  /** By its key what was made of it, with samples. */
  readonly lent: Map<string, Part>;
}

/** A share of the recordings is worked on and kept; or what the shares kept is collected, and nothing computed of them. */
export type Sharing =
  | {
      readonly part: 'share';
      readonly isOwn: (path: string) => boolean;
      /** Told of a recording that the system refused, which may be tried again. */
      readonly onFailure: (failure: Failure) => void;
    }
  | {
      readonly part: 'collect';
      /** Told of a recording of which nothing is kept. */
      readonly onMissing: (path: string) => void;
      /** Whether it was told of any by now. */
      readonly isShort: () => boolean;
    };

/** The place of what a failure of a call blames: an operand, an option, or all of the call. */
export function blamed(node: Call, at: string | undefined): Place {
  const nodes = at === undefined ? undefined : (node.options[at] ?? node.operands[at]);
  if (nodes === undefined || nodes.length === 0) return node.place;
  return { from: nodes[0].place.from, to: nodes[nodes.length - 1].place.to };
}

export function placed(found: Result<Value>, place: Place): Evaluated<Value> {
  return found.ok ? { ok: true, value: found.value } : { ok: false, failure: { ...found.failure, place } };
}

export function failed(why: Message, place: Place): { ok: false; failure: PlacedFailure } {
  return { ok: false, failure: { ...why, place } };
}
