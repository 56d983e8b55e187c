import { isUnit } from '../units/parse.ts';
import type { Fix, Place } from './diagnostic.ts';
import type { Token, TokenKind } from './tokens.ts';
import type { Expected, Expression, Missing, Piece, Stray, UnitName, Word } from './tree.ts';
import { titles, type Report } from './messages.ts';
import type { Vocabulary } from './vocabulary.ts';

/** Brackets, signs and operators in a row; more is no honest text and would exhaust the stack. */
const deepest = 100;
const longest = 1000;
/** Items of one list: more is no honest text, and each would bring a message or an argument of its own. */
const longestList = 10_000;
/** Tokens that one unit may have. */
const longestUnit = 50;

export const span = (from: Place, to: Place): Place => ({ from: from.from, to: Math.max(from.to, to.to) });

export const touches = (a: Token | undefined, b: Token | undefined): boolean => a !== undefined && a.to === b?.from;

/** A place in one statement's tokens, and the small pieces that every form of the grammar is made of. */
export class Cursor {
  readonly #tokens: readonly Token[];
  protected readonly vocabulary: Vocabulary;
  protected readonly report: Report;
  protected readonly pieces: Piece[] = [];
  protected at = 0;
  protected depth = 0;
  /** At the upper end of a range, where a word before `..` begins the next range and is no unit. */
  protected ending = false;
  /** Whether the rest of the statement was given up. */
  protected lost = false;

  constructor(tokens: readonly Token[], vocabulary: Vocabulary, report: Report) {
    this.#tokens = tokens;
    this.vocabulary = vocabulary;
    this.report = report;
  }

  protected peek(ahead = 0): Token | undefined {
    return this.#tokens[this.at + ahead];
  }

  protected is(kind: TokenKind, ahead = 0): boolean {
    return this.peek(ahead)?.kind === kind;
  }

  protected isSign(sign: string, ahead = 0): boolean {
    const token = this.peek(ahead);
    return token?.kind === 'sign' && token.text === sign;
  }

  protected isWord(word: string, ahead = 0): boolean {
    const token = this.peek(ahead);
    return token?.kind === 'word' && token.text === word;
  }

  protected take(tight = false): Token {
    const token = this.#tokens[this.at++];
    this.pieces.push({ token, tight });
    return token;
  }

  /** How many tokens from here are a unit, each touching the next: the longest such run. */
  protected unitLength(start: number, converting: boolean): number {
    const first = this.peek(start);
    if (!first || !(first.kind === 'word' || this.isSign('%', start) || (converting && this.isSign('(', start))))
      return 0;
    if (first.text === 'in' && !converting && this.convertsHere(start)) return 0;
    let text = '';
    let longest = 0;
    for (let length = 1; length <= longestUnit; length++) {
      const token = this.peek(start + length - 1);
      if (!token || (length > 1 && !touches(this.peek(start + length - 2), token))) break;
      if (token.kind === 'text' || token.kind === 'bad') break;
      text += token.text;
      const next = this.peek(start + length);
      const halfway = (next?.kind === 'word' || next?.kind === 'number') && touches(token, next);
      if (!halfway && isUnit(text)) longest = length;
    }
    return longest;
  }

  /** `5 in mm` and `5 in in` convert; `5 in` and `5 in in mm` are inches. */
  protected convertsHere(start: number): boolean {
    const inches = this.isWord('in', start + 1) && this.unitLength(start + 2, true) > 0;
    const length = this.unitLength(start + 1, true);
    const begins = this.ending && this.isSign('..', start + 1 + length);
    return !inches && !begins && length > 0;
  }

  protected partOfUnit(ahead: number): boolean {
    return (
      this.is('word', ahead) ||
      this.is('number', ahead) ||
      ['%', '*', '/', '^'].some((sign) => this.isSign(sign, ahead))
    );
  }

  protected unitName(length: number, tight: boolean): UnitName {
    const first = this.take(tight);
    let { to, text } = first;
    for (let i = 1; i < length; i++) {
      const token = this.take(true);
      to = token.to;
      text += token.text;
    }
    return { type: 'unit', place: { from: first.from, to }, text };
  }

  protected word(tight = false, hyphens = false): Word {
    const first = this.take(tight);
    let last = first;
    let text = first.text;
    while (
      hyphens &&
      this.isSign('-') &&
      this.is('word', 1) &&
      touches(last, this.peek()) &&
      touches(this.peek(), this.peek(1))
    ) {
      text += this.take(true).text;
      last = this.take(true);
      text += last.text;
    }
    return { type: 'word', place: { from: first.from, to: last.to }, text };
  }

  protected text(tight = false): Expression & { readonly type: 'text' } {
    const token = this.take(tight);
    const place = { from: token.from, to: token.to };
    const closed = /.["”“»]$/.test(token.text);
    const text = token.text.slice(1, closed ? -1 : undefined);
    if (!token.text.startsWith('"')) {
      const fix = { title: titles.straightQuotes, place, text: `"${text}"` };
      this.report('syntax.character', place, { found: token.text[0], instead: '"' }, [fix]);
    } else if (!closed) {
      const end = { from: token.to, to: token.to };
      this.report('text.unclosed', place, {}, [{ title: titles.addMissing('"'), place: end, text: '"' }]);
    }
    return { type: 'text', place, text };
  }

  protected missing(expected: Expected): Missing {
    const last = this.peek(-1);
    const at = last?.to ?? this.peek()?.from ?? 0;
    const place = { from: at, to: at };
    this.report('syntax.missing', place, { expected, after: last?.text ?? '' });
    return { type: 'missing', place, expected };
  }

  protected strayToken(): Stray {
    const token = this.take();
    const place = { from: token.from, to: token.to };
    if (token.kind === 'bad')
      this.report('syntax.character', place, { found: token.text, instead: instead[token.text] }, fixFor(token));
    else this.report('syntax.unexpected', place, { found: token.text });
    return { type: 'stray', place, text: token.text };
  }

  protected close(open: Token, bracket: ')' | ']'): Place {
    if (this.isSign(bracket)) return this.take();
    const last = this.peek(-1) ?? open;
    const end = { from: last.to, to: last.to };
    if (this.lost) return end;
    this.report('bracket.unclosed', { from: open.from, to: open.to }, { bracket: open.text }, [
      { title: titles.addMissing(bracket), place: end, text: bracket },
    ]);
    return end;
  }

  protected deeper<T extends Expression>(read: () => T): T | Missing {
    if (this.depth >= deepest) {
      const token = this.giveUp();
      return { type: 'missing', place: { from: token.to, to: token.to }, expected: 'value' };
    }
    this.depth++;
    const node = read();
    this.depth--;
    return node;
  }

  protected tooLong(count: number): boolean {
    if (count < longest) return false;
    this.giveUp();
    return true;
  }

  protected listTooLong(count: number): boolean {
    if (count < longestList) return false;
    const token = this.peek()!;
    this.report('syntax.long', { from: token.from, to: token.to }, { of: 'list', most: longestList });
    this.passOver();
    return true;
  }

  /** Passes over the rest of a statement that is nested or chained beyond reading. */
  protected giveUp(): Token {
    const token = this.peek()!;
    this.report('syntax.deep', { from: token.from, to: token.to }, {});
    this.passOver();
    return token;
  }

  protected passOver(): void {
    while (this.peek()) this.take();
    this.lost = true;
  }

  /** The rest of a statement that is over. */
  protected stray(): void {
    this.strayToken();
    while (this.peek()) this.take();
  }
}

/** What text processors put in place of the signs of the language. */
const instead: Readonly<Partial<Record<string, string>>> = {
  '“': '"',
  '”': '"',
  '„': '"',
  '«': '"',
  '»': '"',
  "'": '"',
  '’': '"',
  '‘': '"',
  '−': '-',
  '–': '-',
  '—': '-',
  '…': '..',
  '·': '*',
  '×': '*',
  '÷': '/',
  ';': ',',
};

function fixFor(token: Token): Fix[] | undefined {
  const text = instead[token.text];
  return text === undefined
    ? undefined
    : [{ title: titles.write(text), place: { from: token.from, to: token.to }, text }];
}
