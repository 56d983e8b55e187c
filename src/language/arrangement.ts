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
  readonly operands: Map<string, Entry[]>;
  readonly options: Map<string, OptionUse[]>;
  readonly keywords: Word[];
  /** How far it reaches. */
  to: number;
  /** What could stand next, at the end of the items: the open option, and the next operand. */
  open: OptionForm | undefined;
  next: number;
}
