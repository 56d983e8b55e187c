import type { FunctionForm } from './checked.ts';
import type { Form, ValueKind } from './form.ts';
import type { DimensionName } from './form.ts';
/** A scalar or a part that can be read off a value: `C.change`. */
export interface FieldForm {
  readonly name: string;
  readonly doc: string;
  /** What it measures, where that does not depend on the value. */
  readonly dimension?: DimensionName;
  /** A quantity unless said. */
  readonly kind?: ValueKind;
}
/** All that the language knows of the verbs, as data. */
export interface Catalogue {
  readonly verbs: readonly Form[];
  readonly functions: readonly FunctionForm[];
  readonly fields: Readonly<Partial<Record<ValueKind, readonly FieldForm[]>>>;
}
/** The words that have a meaning of their own; the parser needs no more of a catalogue than this. */
export interface Vocabulary {
  readonly verbs: ReadonlyMap<string, Form>;
  readonly functions: ReadonlyMap<string, FunctionForm>;
  /** Words that introduce an option or an operand. */
  readonly keywords: ReadonlySet<string>;
  /** Fixed words of operands and options: `hann`, `psd`. */
  readonly words: ReadonlySet<string>;
}
export declare function vocabularyOf(catalogue: Catalogue): Vocabulary;
