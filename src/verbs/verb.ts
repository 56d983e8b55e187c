import type { Form } from '../language/form.ts';
import type { ByteSource } from '../readers/recording.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import type { Value } from './values.ts';

/** A verb: one file, one form, one evaluation. A new verb touches its own file and one line of the catalogue. */
export interface Verb {
  readonly form: Form;
  /** Whether it hands its runs on, or shows their findings itself, so that their faults need not be said with its result. */
  readonly passesFaults?: boolean;
  /**
   * The raw files a call reads, so that their contents can be part of its cache key; only of verbs that read.
   * Patterns as they stand in the call; the engine expands and hashes them.
   */
  sources?(given: Given, files: Files): Promise<SourceList>;
  evaluate(given: Given, context: Context): Promise<Answer> | Answer;
}

export type SourceList =
  { readonly ok: true; readonly paths: readonly string[] } | { readonly ok: false; readonly failure: Failure };

/** An evaluation's answer: a value with warnings, or one sentence that says why there is none. */
export type Answer = Success | { readonly ok: false; readonly failure: Failure };

export interface Success {
  readonly ok: true;
  readonly value: Value;
  readonly warnings: readonly Warning[];
}

export interface Failure {
  /** Stable dotted code. */
  readonly code: string;
  readonly message: string;
  /** Name of the operand or keyword of the option that is to blame, so that the place can be shown. */
  readonly at?: string;
}

export interface Warning {
  readonly code: string;
  readonly message: string;
}

export const answer = (value: Value, warnings: readonly Warning[] = []): Success => ({ ok: true, value, warnings });

export const refuse = (code: string, message: string, at?: string): { ok: false; failure: Failure } => ({
  ok: false,
  failure: at === undefined ? { code, message } : { code, message, at },
});

/** What stands in one place of a call after evaluation. */
export type Argument =
  | {
      readonly type: 'value';
      readonly value: Value;
      /** The name it was bound to. */ readonly name: string | undefined;
    }
  | { readonly type: 'quantity'; readonly quantity: Quantity }
  | { readonly type: 'range'; readonly from: Quantity; readonly to: Quantity }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'word'; readonly word: string; readonly text?: string }
  | { readonly type: 'unit'; readonly unit: Unit }
  | { readonly type: 'group'; readonly parts: readonly Argument[] };

/** A call's evaluated arguments, by operand name and option keyword. */
export interface Given {
  readonly operands: Readonly<Record<string, readonly Argument[]>>;
  readonly options: Readonly<Record<string, readonly Argument[]>>;
}

/** The outside, as a verb may see it. */
export interface Context {
  readonly files: Files;
  readonly watch: Watch;
  /** SHA-256 of a text, lower-case hex. */
  readonly digest: (text: string) => string;
}

/** The project's files, read only. Paths are relative to the notebook's folder, with `/`. */
export interface Files {
  /** Paths that a name or a pattern with `*` and `?` stands for, in natural order; or why none may be read. */
  expand(pattern: string): Promise<SourceList>;
  open(path: string): Promise<ByteSource>;
  /** Size and SHA-256 (lower-case hex) of a file's bytes. */
  identify(path: string): Promise<{ readonly bytes: number; readonly sha256: string }>;
}

export interface Watch {
  readonly cancelled: () => boolean;
  /** Of the work in hand, 0 to 1, and what it is. */
  readonly progress: (fraction: number, what: string) => void;
}
