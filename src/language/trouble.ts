import type { Dimension } from '../units/unit.ts';
import type { Accept, DimensionName, ValueKind } from './form.ts';
import type { Fix, Place } from './problem.ts';
import type { Expected } from './tree.ts';

/** Which place of a verb a trouble speaks of: an operand or an option. */
export interface Where {
  readonly verb: string;
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
  readonly where: Where;
}

type Nothing = Record<never, never>;

/** What can be wrong with a notebook's text, by stable code, each with the facts that its sentence is made of. */
export interface Troubles {
  'syntax.missing': { readonly expected: Expected; readonly after: string };
  'syntax.unexpected': Piece;
  'syntax.character': Piece & Instead;
  'syntax.deep': Nothing;
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
  'name.twice': { readonly name: string; readonly cell: number; readonly line: number; readonly same: boolean };
  'name.reserved': { readonly name: string; readonly what: 'verb' | 'keyword' | 'function' | 'constant' };
  'name.letters': { readonly name: string };
  'name.circle': { readonly members: readonly string[] };
  'name.failed': { readonly names: readonly string[] };
  'name.unused': { readonly name: string };
  'operand.missing': {
    readonly verb: string;
    readonly operand: string;
    readonly keyword: string | undefined;
    readonly accepts: readonly Accept[];
  };
  'operand.extra': Piece & { readonly verb: string };
  'operand.wrong': Piece & At & { readonly accepts: readonly Accept[] };
  'operand.minus': Piece & Instead;
  'option.unknown': Near & { readonly verb: string; readonly word: string; readonly known: readonly string[] };
  'option.twice': { readonly verb: string; readonly option: string };
  'option.missing': { readonly verb: string; readonly option: string; readonly accepts: readonly Accept[] };
  'word.unknown': Near & At & { readonly word: string; readonly wanted: readonly string[] };
  'kind.mismatch': Piece & At & Instead & { readonly wanted: readonly ValueKind[]; readonly kind: ValueKind };
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
  'field.unknown': Near & { readonly field: string; readonly kind: ValueKind; readonly known: readonly string[] };
  'pick.kind': Piece & { readonly kind: ValueKind };
  'pick.index': Piece;
  'arithmetic.kind': Piece & { readonly kind: ValueKind };
  'arithmetic.dimension': { readonly operator: string; readonly left: Dimension; readonly right: Dimension };
  'arithmetic.level': Nothing;
  'arithmetic.exponent': { readonly dimension: Dimension };
  'arithmetic.zero': Nothing;
  'arithmetic.finite': Nothing;
  'convert.dimension': { readonly unit: string; readonly wanted: Dimension; readonly found: Dimension };
  'file.missing': { readonly pattern: string; readonly nearest: readonly string[] };
  'channel.unknown': Near & { readonly channel: string; readonly known: readonly string[] };
  'range.outside': Piece & { readonly end: string };
  'band.rate': Piece & { readonly half: string };
}

export type Code = keyof Troubles;

export type Trouble = { [C in Code]: { readonly code: C; readonly facts: Troubles[C] } }[Code];

/** A trouble and where; the words are made at the edge, in messages.ts. */
export type Found = Trouble & { readonly place: Place; readonly fixes?: readonly Fix[] };

export type Report = <C extends Code>(code: C, place: Place, facts: Troubles[C], fixes?: readonly Fix[]) => void;

/** A list to report into. */
export function reporter(found: Found[]): Report {
  return (code, place, facts, fixes) => {
    // Two ways of reading may come upon the same mistake.
    if (found.some((one) => one.code === code && one.place.from === place.from && one.place.to === place.to)) return;
    // The compiler cannot tie a generic code to its own facts; the signature of Report does.
    found.push({ code, facts, place, ...(fixes && fixes.length > 0 ? { fixes } : {}) } as unknown as Found);
  };
}

/** Reports a trouble made elsewhere. */
export function tell(report: Report, { code, facts }: Trouble, place: Place, fixes?: readonly Fix[]): void {
  // Code and facts belong together in a trouble, which the signature of Report can't be told of a union.
  (report as (code: Code, place: Place, facts: unknown, fixes?: readonly Fix[]) => void)(code, place, facts, fixes);
}
