import type { Message } from '../result/result.ts';
import type { Dimension } from '../units/unit.ts';
import type { CellName } from './cellName.ts';
import type { DimensionName } from './form.ts';
import type { Expected } from './tree.ts';

/** An operand or an option of a verb. */
export interface Slot {
  readonly verb: string;
  /** Name of the operand or keyword of the option. */
  readonly slot: string;
  readonly option: boolean;
}

/** The likely words, nearest first. */
interface Near {
  readonly nearest: readonly string[];
}

/** A piece of the text, as it stands there. */
interface Piece {
  readonly found: string;
}

interface Instead {
  readonly instead: string | undefined;
}

interface At {
  readonly where: Slot;
}

/** What may stand in a slot, each in words: `a spectrum`, `a range such as 10..50 Hz`. */
interface Wanted {
  readonly wanted: readonly string[];
}

/** A kind of value in words: `a spectrum`, `runs`. */
interface OfKind {
  readonly kind: string;
}

type Nothing = Record<never, never>;

/** All that the language may say, by stable code, each with the facts that its sentence is made of. */
export interface LanguageFacts {
  'syntax.missing': { readonly expected: Expected; readonly after: string };
  'syntax.unexpected': Piece;
  'syntax.character': Piece & Instead;
  'syntax.deep': Nothing;
  'syntax.long': { readonly of: 'list' | 'cell' | 'notebook'; readonly most: number };
  'text.unclosed': Nothing;
  'text.quotes': Piece & Instead;
  'bracket.unclosed': { readonly bracket: string };
  'number.comma': Piece & Instead;
  'verb.unknown': Near & { readonly verb: string };
  'verb.bracket': { readonly verb: string };
  'verb.place': { readonly verb: string };
  'verb.missing': Piece & Instead;
  'pipe.verb': Piece;
  'function.unknown': Near & { readonly name: string };
  'function.arguments': { readonly name: string; readonly wanted: string; readonly found: number };
  'name.unknown': Near & { readonly name: string };
  'name.twice': { readonly name: string; readonly cell: CellName; readonly line: number; readonly same: boolean };
  'name.reserved': { readonly name: string; readonly what: 'verb' | 'keyword' | 'function' | 'constant' };
  'name.letters': { readonly name: string };
  'name.circle': { readonly members: readonly string[] };
  'name.failed': { readonly names: readonly string[] };
  'name.unused': { readonly name: string };
  'operand.missing': Wanted & {
    readonly verb: string;
    readonly operand: string;
    readonly keyword: string | undefined;
    readonly example: string | undefined;
  };
  'operand.extra': Piece & { readonly verb: string };
  'operand.wrong': Piece & At & Wanted;
  'operand.minus': Piece & Instead;
  'option.unknown': Near & { readonly verb: string; readonly word: string; readonly known: readonly string[] };
  'option.twice': { readonly verb: string; readonly option: string };
  'option.missing': Wanted & { readonly verb: string; readonly option: string };
  /** `instead`: how it is written where it belongs; `isStep`: whether that is a step of its own. */
  'word.elsewhere': Piece & { readonly verb: string; readonly instead: string; readonly isStep: boolean };
  'word.unknown': Near & At & { readonly word: string; readonly wanted: readonly string[] };
  'kind.mismatch': Piece & At & Instead & Wanted & OfKind;
  'unit.unknown': Near & { readonly unit: string };
  'unit.missing': Piece & At & { readonly wanted: DimensionName; readonly unit: string };
  'unit.dimension': Piece &
    At & { readonly wanted: readonly DimensionName[]; readonly dimension: Dimension; readonly unit: string };
  'range.reversed': Piece & Instead;
  'range.empty': Piece;
  'range.constant': Piece;
  'value.above': Piece & At & { readonly above: string };
  'value.least': Piece & At & { readonly least: string };
  'value.most': Piece & At & Instead & { readonly most: string };
  'value.integer': Piece & At;
  'field.unknown': Near & OfKind & { readonly field: string; readonly known: readonly string[] };
  'pick.kind': Piece & OfKind;
  'pick.index': Piece;
  'arithmetic.kind': Piece & OfKind;
  'arithmetic.dimension': { readonly operator: string; readonly left: Dimension; readonly right: Dimension };
  'arithmetic.level': Nothing;
  'arithmetic.exponent': { readonly dimension: Dimension };
  'arithmetic.zero': Nothing;
  'arithmetic.finite': Nothing;
  'uncertainty.dimension': { readonly of: Dimension; readonly by: Dimension };
  'uncertainty.freedom': Nothing;
  'coverage.level': Piece;
  'convert.kind': OfKind;
  'convert.dimension': { readonly unit: string; readonly wanted: Dimension; readonly found: Dimension };
  'file.missing': { readonly pattern: string; readonly nearest: readonly string[] };
  'channel.unknown': Near & { readonly channel: string; readonly known: readonly string[] };
  'range.outside': Piece & { readonly end: string };
  'band.rate': Piece & { readonly half: string };
}

export type Code = keyof LanguageFacts;

/** A message with its code and facts, told apart by the code. */
export type LanguageMessage = {
  [C in Code]: Message & { readonly code: C; readonly facts: LanguageFacts[C] };
}[Code];
