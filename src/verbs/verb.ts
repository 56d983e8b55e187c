import type { Form } from '../language/form.ts';
import {
  answered,
  type Answer as AnswerOf,
  type Answered as AnsweredOf,
  type Result,
  type Warning,
} from '../result/result.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import type { Files, History, Watch } from '../values/ports.ts';
import type { Value } from '../values/value.ts';

/** A verb: one file, one form, one evaluation. A new verb touches its own file and one line of the catalogue. */
export interface Verb {
  readonly form: Form;
  /** Whether it hands its runs on, or shows their findings itself, so that their faults need not be said with its result. */
  readonly passesFaults?: boolean;
  /** Whether its value tells of the project's history, so that it is another after the next commit. */
  readonly readsHistory?: boolean;
  /**
   * The raw files a call reads, so that their contents can be part of its cache key; only of verbs that read.
   * Patterns as they stand in the call; the engine expands and hashes them.
   */
  sources?(given: Arguments, files: Files): Promise<Result<readonly string[]>>;
  evaluate(given: Arguments, context: Context): Promise<Answer> | Answer;
}

/** An evaluation's answer: a value with warnings, or one sentence that says why there is none. */
export type Answer = AnswerOf<Value>;
export type Answered = AnsweredOf<Value>;

export const answer = (value: Value, warnings: readonly Warning[] = []): Answered => answered(value, warnings);

/** A value that nothing has to be told beside, as an answer. */
export const answerOf = (found: Result<Value>): Answer => (found.ok ? answer(found.value) : found);

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
export interface Arguments {
  readonly operands: Readonly<Partial<Record<string, readonly Argument[]>>>;
  readonly options: Readonly<Partial<Record<string, readonly Argument[]>>>;
}

/** The outside, as a verb may see it. */
export interface Context {
  readonly files: Files;
  readonly watch: Watch;
  /** SHA-256 of a text, lower-case hex. */
  readonly digest: (text: string) => string;
  /** The project's history, and the call as it is written; of verbs that read it, where there is one. */
  readonly history?: { readonly of: History; readonly source: string | undefined };
}
