import type { Place } from './diagnostic.ts';
import type { Accept, Form, OptionForm } from './form.ts';
import type { Operand, Word } from './tree.ts';

/** A piece in its place: which way of giving it was taken, and whether it certainly is that. */
export interface Entry {
  readonly node: Operand;
  readonly accept: Accept;
  /** All the ways in which its place may be given. */
  readonly accepts: readonly Accept[];
  readonly sure: boolean;
  /** Of a step written in place. */
  readonly inner?: Arrangement;
}

/** One use of an option: its keyword and what follows it. */
export interface OptionUse {
  readonly keyword: Word;
  readonly entries: Entry[];
}

/** A verb's items laid out by its form. */
export interface Arrangement {
  readonly form: Form;
  /** Of the verb, or of the first item where a step in place leaves its verb out. */
  readonly place: Place;
  /** Whether the verb itself stands there. */
  readonly named: boolean;
  operands: Map<string, Entry[]>;
  options: Map<string, OptionUse[]>;
  keywords: Word[];
  /** How far it reaches. */
  to: number;
  /** What could stand next, at the end of the items: the open option, and the next operand. */
  open: OptionForm | undefined;
  next: number;
}

const empty: Pick<Arrangement, 'operands' | 'options' | 'keywords'> = {
  operands: new Map(),
  options: new Map(),
  keywords: [],
};

/** A finished arrangement: the lists that stayed empty, as in most steps some do, are kept once for all of them. */
export function finished(arrangement: Arrangement): Arrangement {
  if (arrangement.operands.size === 0) arrangement.operands = empty.operands;
  if (arrangement.options.size === 0) arrangement.options = empty.options;
  if (arrangement.keywords.length === 0) arrangement.keywords = empty.keywords;
  return arrangement;
}
