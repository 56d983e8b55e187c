import type { Dimension, Quantity } from '../units/unit.ts';
import type { Arrangement } from './arrangement.ts';
import type { Checked, FunctionForm } from './checked.ts';
import type { FitContext } from './fit.ts';
import type { Accept, Form, ValueKind } from './form.ts';
import type { Place } from './diagnostic.ts';
import type { Pipeline, Step } from './tree.ts';
import type { Report } from './messages.ts';
import type { Catalogue, FieldForm } from './vocabulary.ts';

/** What is known of an expression without running it; `checked` is undefined where something in it is wrong. */
export interface Typed {
  readonly checked: Checked | undefined;
  readonly kind: ValueKind | undefined;
  readonly dimension: Dimension | undefined;
  /** Its value, where it is made of literal quantities alone. */
  readonly constant: Quantity | undefined;
}

export const untyped: Typed = { checked: undefined, kind: undefined, dimension: undefined, constant: undefined };

/** What a piece of text turned out to be: the ground for colours, hovers, renaming. */
export type Occurrence = { readonly cell: number; readonly place: Place } & (
  | { readonly role: 'definition' | 'name'; readonly name: string }
  | { readonly role: 'verb'; readonly form: Form }
  | { readonly role: 'keyword'; readonly form: Form; readonly keyword: string }
  | { readonly role: 'word'; readonly form: Form; readonly word: string; readonly slot: string }
  /** `of`: whether the word is a channel's, or another name from outside. */
  | { readonly role: 'channel'; readonly form: Form; readonly word: string; readonly of: 'channel' | 'label' }
  | { readonly role: 'function'; readonly form: FunctionForm }
  | { readonly role: 'constant'; readonly name: string }
  | { readonly role: 'field'; readonly kind: ValueKind; readonly field: FieldForm }
  | { readonly role: 'unit'; readonly unit: string }
);

type WithoutCell<M> = M extends unknown ? Omit<M, 'cell'> : never;
export type NewOccurrence = WithoutCell<Occurrence>;

/** A step of the text with its arrangement, to which an option can be added. */
export interface ArrangedStep {
  readonly cell: number;
  readonly place: Place;
  readonly arrangement: Arrangement;
}

/** One statement's check in progress: what it may ask, and where it writes what it found. */
export interface Work extends FitContext {
  readonly catalogue: Catalogue;
  readonly report: Report;
  readonly note: (occurrence: NewOccurrence) => void;
  readonly arranged: (step: Step, arrangement: Arrangement) => void;
  /** What a bound name stands for, noting that this statement uses it. */
  readonly use: (name: string) => Typed;
  readonly names: () => readonly string[];
  readonly pipeline: (pipeline: Pipeline) => Typed;
}

const kinds = new WeakMap<readonly Accept[], readonly ValueKind[]>();

/** The kinds of value that a place takes. */
export function kindsOf(accepts: readonly Accept[]): readonly ValueKind[] {
  const known = kinds.get(accepts);
  if (known) return known;
  const found = new Set<ValueKind>();
  for (const accept of accepts) {
    if (accept.type === 'value') accept.kinds.forEach((kind) => found.add(kind));
    else if (accept.type === 'quantity') found.add('quantity');
  }
  const list = [...found];
  kinds.set(accepts, list);
  return list;
}
