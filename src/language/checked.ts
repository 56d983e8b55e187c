import type { Quantity, Unit } from '../units/unit.ts';
import type { DimensionName, ValueKind } from './form.ts';
import type { Place, Diagnostic } from './diagnostic.ts';

/**
 * A cell's statements as the engine evaluates them: every call has been held against its verb's form, every
 * argument stands under the operand's or option's name, and pipelines are unrolled (a step's first operand is
 * the step before it). A statement with an error has no `expression`.
 */
export interface CheckedStatement {
  readonly cell: number;
  readonly place: Place;
  /** 1-based line within the cell. */
  readonly line: number;
  readonly name: { readonly text: string; readonly place: Place } | undefined;
  readonly expression: Checked | undefined;
  /** Names this statement uses, in order, each once. */
  readonly uses: readonly string[];
  /** Kind of its value as far as it can be told without running. */
  readonly kind: ValueKind | undefined;
  readonly problems: readonly Diagnostic[];
}

export type Checked =
  | {
      readonly type: 'call';
      readonly verb: string;
      readonly place: Place;
      readonly operands: CheckedArguments;
      readonly options: CheckedArguments;
    }
  | { readonly type: 'name'; readonly name: string; readonly place: Place }
  | { readonly type: 'pick'; readonly of: Checked; readonly index: number; readonly place: Place }
  | { readonly type: 'field'; readonly of: Checked; readonly field: string; readonly place: Place }
  | { readonly type: 'quantity'; readonly quantity: Quantity; readonly place: Place }
  | { readonly type: 'range'; readonly from: Quantity; readonly to: Quantity; readonly place: Place }
  | { readonly type: 'text'; readonly text: string; readonly place: Place }
  /** A fixed word, a channel's name, or `x="sensor 2"` (then `text` is what stands in the quotes). */
  | { readonly type: 'word'; readonly word: string; readonly text?: string; readonly place: Place }
  | { readonly type: 'unit'; readonly unit: Unit; readonly place: Place }
  | {
      readonly type: 'binary';
      readonly operator: '+' | '-' | '*' | '/' | '^';
      readonly left: Checked;
      readonly right: Checked;
      readonly place: Place;
    }
  | { readonly type: 'negative'; readonly of: Checked; readonly place: Place }
  | { readonly type: 'convert'; readonly of: Checked; readonly unit: Unit; readonly place: Place }
  /** A quantity with a stated standard uncertainty, in percent of it or in its unit. */
  | {
      readonly type: 'uncertain';
      readonly of: Checked;
      readonly by: Quantity;
      readonly freedom: number | undefined;
      readonly place: Place;
    }
  /** A quantity with its expanded uncertainty; the level is from 0 to 1. */
  | { readonly type: 'coverage'; readonly of: Checked; readonly level: number; readonly place: Place }
  | { readonly type: 'function'; readonly name: string; readonly arguments: readonly Checked[]; readonly place: Place };

/**
 * Arguments by operand name or option keyword. Each is a list (one entry unless the form says `many`); a flag
 * that stands is an empty list; for a repeatable option with parts, `groups` of the same keyword would be lost in
 * a flat list, so each occurrence is one entry of type `group`.
 */
export type CheckedArguments = Readonly<Record<string, readonly CheckedArgument[]>>;
export type CheckedArgument =
  Checked | { readonly type: 'group'; readonly parts: readonly Checked[]; readonly place: Place };

/** What stands under a name, or undefined where nothing does. */
export const argumentsUnder = (name: string, given: CheckedArguments): readonly CheckedArgument[] | undefined =>
  given[name];

/** A function of the expressions: series, natural_frequency … */
export interface FunctionForm {
  readonly name: string;
  readonly summary: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly doc: string;
    /** What it has to measure; anything unless said. */
    readonly dimension?: DimensionName;
  }[];
  /** Whether the last parameter may be given any number of times. */
  readonly variadic: boolean;
  /** What the result measures: a dimension, that of the first argument or its root; unknown unless said. */
  readonly gives?: DimensionName | 'same' | 'root';
  readonly example: string;
}
