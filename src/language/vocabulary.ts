import type { FunctionForm } from './checked.ts';
import type { Accept, DimensionName, Form, ValueKind } from './form.ts';

/** A scalar or a part that can be read off a value: `C.change`. */
export interface FieldForm {
  readonly name: string;
  readonly doc: string;
  /** What it measures, where that does not depend on the value. */
  readonly dimension?: DimensionName;
  /** A quantity unless said. */
  readonly kind?: ValueKind;
}

/** A kind of value, as far as the language goes. */
export interface KindForm {
  readonly name: ValueKind;
  /** In a sentence: `a spectrum`, `runs`. */
  readonly words: string;
  readonly fields: readonly FieldForm[];
  /** Whether one of its rows can be picked: `r[2]`. */
  readonly picks: boolean;
  /** Whether it has figures in a unit of their own, that can be told in another: `r in m/s^2`. */
  readonly units: boolean;
}

/** All that the language knows of verbs, functions and kinds of value, as data. */
export interface Catalogue {
  readonly verbs: readonly Form[];
  readonly functions: readonly FunctionForm[];
  readonly kinds: readonly KindForm[];
}

export type Kinds = ReadonlyMap<ValueKind, KindForm>;

/** The words that have a meaning of their own. */
export interface Vocabulary {
  readonly verbs: ReadonlyMap<string, Form>;
  readonly functions: ReadonlyMap<string, FunctionForm>;
  readonly kinds: Kinds;
  /** Words that introduce an option or an operand. */
  readonly keywords: ReadonlySet<string>;
  /** Fixed words of operands and options: `hann`, `psd`. */
  readonly words: ReadonlySet<string>;
}

const made = new WeakMap<Catalogue, Vocabulary>();

export function vocabularyOf(catalogue: Catalogue): Vocabulary {
  const known = made.get(catalogue);
  if (known) return known;
  const keywords = new Set<string>(['in', 'coverage', 'dof']);
  const words = new Set<string>(['rectangular', 'triangular']);
  const add = (accepts: readonly Accept[]): void =>
    accepts.forEach((accept) => accept.type === 'word' && accept.words.forEach((word) => words.add(word)));
  for (const form of catalogue.verbs) {
    for (const operand of form.operands) {
      if (operand.keyword !== undefined) keywords.add(operand.keyword);
      add(operand.accepts);
    }
    for (const option of form.options) {
      keywords.add(option.keyword);
      add(option.accepts);
      option.parts?.forEach((part) => add(part.accepts));
    }
  }
  const vocabulary = {
    verbs: new Map(catalogue.verbs.map((form) => [form.verb, form])),
    functions: new Map(catalogue.functions.map((form) => [form.name, form])),
    kinds: new Map(catalogue.kinds.map((kind) => [kind.name, kind])),
    keywords,
    words,
  };
  made.set(catalogue, vocabulary);
  return vocabulary;
}

const keywords = new WeakMap<Form, readonly string[]>();

/** Words that introduce an option or an operand of a form. */
export function keywordsOf(form: Form): readonly string[] {
  const before = keywords.get(form);
  if (before !== undefined) return before;
  const ofOperands = form.operands.flatMap(({ keyword }) => keyword ?? []);
  const words = [...form.options.map(({ keyword }) => keyword), ...ofOperands];
  keywords.set(form, words);
  return words;
}
