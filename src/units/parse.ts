import { atoms, usualCompounds } from './atoms.ts';
import { nearest } from './nearest.ts';
import { merge, symbolOf, unitOf, type Term } from './terms.ts';
import type { Unit } from './unit.ts';

export type ParsedUnit =
  | { readonly ok: true; readonly unit: Unit }
  /** `unknown` is the part that is no unit (empty when the text merely breaks off); `nearest` are likely ones. */
  | { readonly ok: false; readonly unknown: string; readonly nearest: readonly string[] };

type Terms = readonly Term[] | { readonly unknown: string };

const superscripts: Readonly<Record<string, string>> = {
  '⁰': '0',
  '¹': '1',
  '²': '2',
  '³': '3',
  '⁴': '4',
  '⁵': '5',
  '⁶': '6',
  '⁷': '7',
  '⁸': '8',
  '⁹': '9',
  '⁻': '-',
};

/** Raised digits to `^n`, the Greek mu and `·` to their usual signs. */
function plain(text: string): string {
  return text
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+/g, (raised) => '^' + [...raised].map((digit) => superscripts[digit]).join(''))
    .replace(/\u03bc/g, 'µ')
    .replace(/[·×]/g, '*')
    .replace(/\*\*/g, '^')
    .trim();
}

const piece = /\s*(?:(?<atom>%|milli-g|[\p{L}_][\p{L}\p{Nd}_]*)|(?<number>\d+(?:\.\d+)?)|(?<sign>[*/^()-]))/uy;

function piecesOf(text: string): readonly string[] | { readonly unknown: string } {
  const pieces: string[] = [];
  piece.lastIndex = 0;
  while (piece.lastIndex < text.length) {
    const at = piece.lastIndex;
    const match = piece.exec(text);
    if (!match) return { unknown: text.slice(at).trim() };
    pieces.push(match[0].trim());
  }
  return pieces;
}

/** Recursive descent over the pieces: product of factors, each an atom or a bracket with an exponent. */
class Reader {
  readonly #pieces: readonly string[];
  #at = 0;

  constructor(pieces: readonly string[]) {
    this.#pieces = pieces;
  }

  whole(): Terms {
    const terms = this.#product();
    if ('unknown' in terms) return terms;
    return this.#at < this.#pieces.length ? { unknown: this.#pieces.slice(this.#at).join('') } : terms;
  }

  #take(...wanted: readonly string[]): string | undefined {
    const next = this.#pieces.at(this.#at);
    if (next === undefined || !wanted.includes(next)) return undefined;
    this.#at++;
    return next;
  }

  #product(): Terms {
    let terms: readonly Term[] = [];
    // A leading 1 stands for nothing above the line: `1/s`.
    if (this.#pieces[this.#at] === '1' && this.#pieces[this.#at + 1] === '/') this.#at++;
    let sign = this.#take('/') ? -1 : 1;
    for (;;) {
      const factor = this.#factor();
      if ('unknown' in factor) return factor;
      terms = [...terms, ...factor.map((term) => ({ ...term, exponent: sign * term.exponent }))];
      const operator = this.#take('*', '/');
      if (!operator) return terms;
      sign = operator === '/' ? -1 : 1;
    }
  }

  #factor(): Terms {
    const base = this.#base();
    if ('unknown' in base || !this.#take('^')) return base;
    const minus = this.#take('-') ? -1 : 1;
    const exponent = Number(this.#pieces[this.#at++]);
    if (!Number.isFinite(exponent)) return { unknown: '^' };
    return base.map((term) => ({ ...term, exponent: minus * exponent * term.exponent }));
  }

  #base(): Terms {
    if (this.#take('(')) {
      const inner = this.#product();
      if ('unknown' in inner) return inner;
      if (!this.#take(')')) return { unknown: '(' };
      const merged = merge(inner);
      if (merged.length === 1 && merged[0].exponent === 1) return merged;
      const { dimension, factor } = unitOf(merged);
      return [{ symbol: `(${symbolOf(merged)})`, dimension, factor, exponent: 1 }];
    }
    const word = this.#pieces.at(this.#at++);
    const atom = word === undefined ? undefined : atoms.get(word);
    return atom ? [{ ...atom, exponent: 1 }] : { unknown: word ?? '' };
  }
}

const known = new Map<string, Terms>();

/** The factors of a compound, each symbol once; or the part that is no unit. */
export function termsOf(text: string): Terms {
  const cached = known.get(text);
  if (cached) return cached;
  const clean = plain(text);
  const pieces = piecesOf(clean);
  const read = 'unknown' in pieces ? pieces : clean === '' ? [] : new Reader(pieces).whole();
  const terms = 'unknown' in read ? read : merge(read);
  // Headers and cells hold few different units; the bound only guards against a stream of nonsense.
  if (known.size > 2000) known.clear();
  known.set(text, terms);
  return terms;
}

/** Whether a text is a unit; cheap enough to ask of every word. */
export const isUnit = (text: string): boolean => text !== '' && !('unknown' in termsOf(text));

/**
 * Reads a unit: `g`, `m/s²`, `mm/s^2`, `N*s/m`, `(m/s^2)^2/Hz`. Empty text is the plain number. Case counts, and `g` is
 * standard gravity.
 */
export function parseUnit(text: string): ParsedUnit {
  const terms = termsOf(text);
  if (!('unknown' in terms)) return { ok: true, unit: unitOf(terms) };
  const near = nearest(terms.unknown, atoms.keys()).map((spelling) => atoms.get(spelling)!.symbol);
  const rest = text.trim() === terms.unknown ? nearest(text.trim(), usualCompounds) : [];
  return { ok: false, unknown: terms.unknown, nearest: [...new Set([...near, ...rest])].slice(0, 3) };
}

/** A unit known to exist, for tables and code. Throws on anything else: that is a bug, not input. */
export function unit(symbol: string): Unit {
  const parsed = parseUnit(symbol);
  if (!parsed.ok) throw new Error(`no such unit: ${symbol}`);
  return parsed.unit;
}

/** The plain number's unit. */
export const one: Unit = unit('');

/** `g^2`, `(m/s^2)^2`; empty for a plain number. */
export const squaredSymbol = ({ symbol }: Pick<Unit, 'symbol'>): string =>
  symbol === '' ? '' : /[*/^]/.test(symbol) ? `(${symbol})^2` : `${symbol}^2`;

/** By the symbol of the signal's; asked for once a spectrum. */
const densityUnits = new Map<string, Unit>();

/** Unit of a density of a signal in `of`: `g^2/Hz`, `(m/s^2)^2/Hz`. */
export function densityUnit({ symbol }: Pick<Unit, 'symbol'>): Unit {
  let found = densityUnits.get(symbol);
  if (found === undefined) {
    found = unit(symbol === '' ? '1/Hz' : `${squaredSymbol({ symbol })}/Hz`);
    densityUnits.set(symbol, found);
  }
  return found;
}
