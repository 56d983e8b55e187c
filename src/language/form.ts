import type { NamedDimension } from '../units/dimension.ts';

/**
 * The form of a verb, as data: the checker, completion, hover, signature help, the formatter, the reference
 * page and the error messages all read it.
 */
export interface Form {
  readonly verb: string;
  /** One line, beginning with a capital letter and ending with a full stop. */
  readonly summary: string;
  /** Some paragraphs of Markdown: what it computes, its convention, the source of its formula. */
  readonly help: string;
  readonly operands: readonly OperandForm[];
  readonly options: readonly OptionForm[];
  /** What is written here by mistake, and belongs elsewhere. */
  readonly elsewhere?: readonly Elsewhere[];
  /** The kind of value it gives; a function where that depends on the kinds of its operands. */
  readonly gives: ValueKind;
  /** Whole cells that run against the example recordings; the first is shown in hovers. */
  readonly examples: readonly string[];
}

export interface OperandForm {
  readonly name: string;
  readonly doc: string;
  readonly accepts: readonly Accept[];
  /** Takes one or more, with commas between (or none between words and quantities). */
  readonly many?: boolean;
  readonly optional?: boolean;
  /** A word that stands before this operand: the `with` of `compare A with B`, the `from` of a transfer. */
  readonly keyword?: string;
}

export interface OptionForm {
  readonly keyword: string;
  readonly doc: string;
  /** Nothing: the keyword alone is the option (`paired`). */
  readonly accepts: readonly Accept[];
  /** Words that are written for the keyword by mistake. */
  readonly mistaken?: readonly string[];
  readonly many?: boolean;
  /** Of a repeatable option that takes several parts in a row (`mark 4.4 Hz "wheel turn"`), each part's form. */
  readonly parts?: readonly {
    readonly accepts: readonly Accept[];
    readonly optional?: boolean;
    readonly doc: string;
  }[];
  /** May stand more than once. */
  readonly repeatable?: boolean;
  /** What is taken when it is left out, in the words of the language. */
  readonly default?: string;
}

/** Bounds in SI units; a percentage is a plain ratio. */
export interface Bounds {
  readonly least?: number;
  readonly most?: number;
  /** A bound that is not itself allowed. */
  readonly above?: number;
}

/** Words that were meant for another place, and how it is written there. */
export interface Elsewhere {
  readonly words: readonly string[];
  /** What stands before them there: `claim NAME`. */
  readonly after: string;
  /** Whether that is a step of its own, on this one's result. */
  readonly isStep: boolean;
}

/** One way an operand or an option's value may be given. */
export type Accept =
  | { readonly type: 'value'; readonly kinds: readonly ValueKind[] }
  | ({
      readonly type: 'quantity';
      readonly dimension: DimensionName;
      readonly signed?: boolean;
    } & Bounds)
  | { readonly type: 'range'; readonly dimension: DimensionName }
  | ({ readonly type: 'number' } & Bounds)
  | ({ readonly type: 'integer' } & Bounds)
  | { readonly type: 'text'; readonly role?: 'files' | 'column' | 'label' }
  /** One of a few fixed words, such as `psd` or `hann`. */
  | { readonly type: 'word'; readonly words: readonly string[] }
  /**
   * A free word or a quoted text: a channel's name; as a `label` any other name that stands outside the notebook, such as a
   * condition's or a column's of the run sheet. `assigned` allows `x="sensor 2"`.
   */
  | { readonly type: 'channel'; readonly assigned?: boolean; readonly role?: 'label' }
  /** A unit's name standing alone, as in `unit g`. */
  | { readonly type: 'unit'; readonly dimension: DimensionName | 'any' }
  /** A verb of the given name written in place, as `window hann 2 s` after `using`. */
  | { readonly type: 'step'; readonly verb: string };

export type DimensionName = NamedDimension | 'any';

/** The name of a kind of value, from the catalogue; `same` is whatever the first operand is: `trim` of runs gives runs. */
export type ValueKind = string;
