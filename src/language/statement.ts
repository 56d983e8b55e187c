import { isUnit } from '../units/parse.ts';
import type { Place } from './problem.ts';
import type { Token, TokenKind } from './tokens.ts';
import type {
  Amount,
  Assigned,
  Binary,
  Expected,
  Expression,
  Item,
  Missing,
  Operand,
  Piece,
  Pipeline,
  Step,
  Stray,
  UnitName,
  Word,
} from './tree.ts';
import type { Report } from './trouble.ts';
import type { Vocabulary } from './vocabulary.ts';

/** Where an expression stands: among a verb's operands, `r -1 s` is two items and `third-octave` one word. */
type Mode = 'operand' | 'free';

/** Brackets, signs and operators in a row; more is no honest text and would exhaust the stack. */
const deepest = 100;
const longest = 1000;

const span = (from: Place, to: Place): Place => ({ from: from.from, to: Math.max(from.to, to.to) });
const touches = (a: Token | undefined, b: Token | undefined): boolean =>
  a !== undefined && b !== undefined && a.to === b.from;

/** Recursive descent over one statement's tokens, one short method for each form of the grammar. */
export class StatementParser {
  readonly #tokens: readonly Token[];
  readonly #vocabulary: Vocabulary;
  readonly #report: Report;
  readonly #pieces: Piece[] = [];
  #at = 0;
  #depth = 0;

  constructor(tokens: readonly Token[], vocabulary: Vocabulary, report: Report) {
    this.#tokens = tokens;
    this.#vocabulary = vocabulary;
    this.#report = report;
  }

  /** `[ name "=" ] pipeline` */
  statement(): { name: Word | undefined; pipeline: Pipeline; pieces: readonly Piece[] } {
    let name: Word | undefined;
    if (this.#is('word') && this.#isSign('=', 1)) {
      name = this.#word();
      this.#take();
    }
    const pipeline = this.#pipeline();
    if (this.#peek()) this.#stray();
    return { name, pipeline, pieces: this.#pieces };
  }

  /** `step { "|" step }` */
  #pipeline(): Pipeline {
    const steps = [this.#step(true)];
    while (this.#isSign('|')) {
      this.#take();
      steps.push(this.#step(false));
    }
    return { place: span(steps[0].place, steps[steps.length - 1].place), steps };
  }

  /** `verb { operand [","] } { option } | expression` */
  #step(first: boolean): Step | Expression {
    if (this.#startsVerb(first)) {
      const verb = this.#word();
      const items = this.#items();
      const last = items.at(-1)?.node ?? verb;
      return { type: 'step', place: span(verb.place, last.place), verb, items };
    }
    const token = this.#peek();
    if (!token || this.#isSign('|') || this.#isSign(')')) return this.#missing('step');
    return this.#expression('free');
  }

  /** A verb, or an unknown word that stands where a verb would: before an operand or after a pipe. */
  #startsVerb(first: boolean): boolean {
    const token = this.#peek();
    if (token?.kind !== 'word' || token.text === 'in') return false;
    const next = this.#peek(1);
    const bracket = this.#isSign('(', 1);
    if (bracket && this.#vocabulary.functions.has(token.text)) return false;
    if (this.#vocabulary.verbs.has(token.text))
      return !(this.#isSign('.', 1) || (this.#isSign('[', 1) && touches(token, next)));
    if (bracket) return !touches(token, next);
    if (next?.kind === 'word') return next.text !== 'in';
    if (next?.kind === 'number' || next?.kind === 'text') return true;
    return !first && (next === undefined || this.#isSign('|', 1) || this.#isSign(')', 1));
  }

  /** `{ operand [","] } { option }`, flat. */
  #items(): readonly Item[] {
    const items: Item[] = [];
    for (;;) {
      const token = this.#peek();
      if (!token || this.#isSign('|') || (this.#isSign(')') && this.#depth > 0)) break;
      if (this.#isSign(',')) {
        const last = items.at(-1);
        if (!last || last.comma) items.push({ node: this.#strayToken(), comma: false });
        else {
          items[items.length - 1] = { node: last.node, comma: true };
          this.#take();
        }
      } else items.push({ node: this.#operand(), comma: false });
    }
    if (items.at(-1)?.comma) items.push({ node: this.#missing('operand'), comma: false });
    return items;
  }

  /** One item: `x="sensor 2"`, `%`, a range or an expression. */
  #operand(): Operand {
    const token = this.#peek()!;
    if (token.kind === 'word' && this.#isSign('=', 1)) return this.#assigned();
    if (this.#isSign('%')) return this.#unitName(1, false);
    const starts =
      token.kind === 'word' ||
      token.kind === 'number' ||
      token.kind === 'text' ||
      this.#isSign('(') ||
      this.#isSign('-') ||
      this.#isSign('..');
    if (!starts || token.text === 'in') return this.#strayToken();
    const from = this.#isSign('..') ? this.#missing('value') : this.#expression('operand');
    if (!this.#isSign('..')) return from;
    this.#take(true);
    const to = this.#rangeEnd();
    return { type: 'range', place: span(from.place, to.place), from, to };
  }

  #rangeEnd(): Expression {
    const token = this.#peek();
    const starts = token?.kind === 'word' || token?.kind === 'number' || this.#isSign('(') || this.#isSign('-');
    if (!starts || (token?.kind === 'word' && this.#vocabulary.keywords.has(token.text)))
      return this.#missing('end of range');
    return this.#expression('operand', true);
  }

  #assigned(): Assigned {
    const name = this.#word();
    this.#take(true);
    const token = this.#peek();
    const text = token?.kind === 'text' ? this.#text(true) : this.#missing('text');
    return { type: 'assigned', place: span(name.place, text.place), name, text };
  }

  /** `sum [ "in" unit ]` */
  #expression(mode: Mode, tight = false): Expression {
    let expression = this.#sum(mode, tight);
    while (this.#isWord('in')) {
      this.#take();
      const unit = this.#convertTo();
      expression = { type: 'convert', place: span(expression.place, unit.place), of: expression, unit };
    }
    return expression;
  }

  #convertTo(): UnitName | Missing {
    const known = this.#unitLength(0, true);
    if (known > 0) return this.#unitName(known, false);
    let length = 0;
    while (
      this.#peek(length) &&
      (length === 0 || touches(this.#peek(length - 1), this.#peek(length))) &&
      this.#partOfUnit(length)
    )
      length++;
    return length > 0 ? this.#unitName(length, false) : this.#missing('unit');
  }

  #partOfUnit(ahead: number): boolean {
    return (
      this.#is('word', ahead) ||
      this.#is('number', ahead) ||
      ['%', '*', '/', '^'].some((sign) => this.#isSign(sign, ahead))
    );
  }

  /** `product { ("+" | "-") product }` */
  #sum(mode: Mode, tight: boolean): Expression {
    let left = this.#product(mode, tight);
    for (let count = 0; this.#isSign('+') || (this.#isSign('-') && this.#minusJoins(mode)); count++) {
      if (this.#tooLong(count)) break;
      left = this.#binary(left, () => this.#product(mode, false));
    }
    return left;
  }

  /** Among operands `a - b` and `2-1` subtract; in `r -1 s` the minus belongs to the next item. */
  #minusJoins(mode: Mode): boolean {
    if (mode === 'free') return true;
    const before = touches(this.#peek(-1), this.#peek());
    const after = touches(this.#peek(), this.#peek(1));
    return before === after;
  }

  /** `signed { ("*" | "/") signed }` */
  #product(mode: Mode, tight: boolean): Expression {
    let left = this.#signed(mode, tight);
    for (let count = 0; this.#isSign('*') || this.#isSign('/'); count++) {
      if (this.#tooLong(count)) break;
      left = this.#binary(left, () => this.#signed(mode, false));
    }
    return left;
  }

  #binary(left: Expression, right: () => Expression, tight = false): Binary {
    const operator = this.#take(tight).text as Binary['operator'];
    const operand = right();
    return { type: 'binary', place: span(left.place, operand.place), operator, left, right: operand };
  }

  /** `"-" signed | power` */
  #signed(mode: Mode, tight: boolean): Expression {
    if (!this.#isSign('-')) return this.#power(mode, tight);
    return this.#deeper(() => {
      const minus = this.#take(tight);
      const of = this.#signed(mode, true);
      return { type: 'negative', place: span(minus, of.place), of };
    });
  }

  /** `primary [ "^" signed ]`; the blanks keep `(5 s) ^ 2` from being read as 5 s². */
  #power(mode: Mode, tight: boolean): Expression {
    const base = this.#primary(mode, tight);
    if (!this.#isSign('^')) return base;
    const close = !(base.type === 'number' && base.unit);
    return this.#deeper(() => this.#binary(base, () => this.#signed(mode, close), close));
  }

  /** `quantity | text | call | bracket | name`, with picks and fields after it. */
  #primary(mode: Mode, tight: boolean): Expression {
    let expression = this.#simple(mode, tight);
    for (let count = 0; expression.type !== 'missing' && expression.type !== 'number'; count++) {
      if (this.#tooLong(count)) break;
      if (this.#isSign('[')) expression = this.#pick(expression);
      else if (this.#isSign('.')) expression = this.#field(expression);
      else break;
    }
    return expression;
  }

  #simple(mode: Mode, tight: boolean): Expression {
    const token = this.#peek();
    if (token?.kind === 'number') return this.#amount(tight);
    if (token?.kind === 'text') return this.#text(tight);
    if (token?.kind === 'word' && token.text !== 'in') {
      if (this.#isSign('(', 1) && (touches(token, this.#peek(1)) || this.#vocabulary.functions.has(token.text)))
        return this.#call(tight);
      return this.#word(tight, mode === 'operand');
    }
    if (this.#isSign('(')) return this.#bracket(tight);
    return this.#missing('value');
  }

  /** `40 N/mm`; a word after a number is its unit unless it has another meaning. */
  #amount(tight: boolean): Amount {
    const number = this.#take(tight);
    let length = this.#unitLength(0, false);
    const next = this.#peek();
    const { verbs, functions, keywords, words } = this.#vocabulary;
    if (next?.kind === 'word' && next.text !== 'in' && keywords.has(next.text)) length = 0;
    else if (length === 0 && next?.kind === 'word' && next.text !== 'in') {
      const taken = verbs.has(next.text) || functions.has(next.text) || words.has(next.text);
      length = taken || this.#isSign('=', 1) || this.#isSign('.', 1) || this.#isSign('[', 1) ? 0 : 1;
    }
    const unit = length > 0 ? this.#unitName(length, false) : undefined;
    return {
      type: 'number',
      place: span(number, unit?.place ?? number),
      value: Number(number.text),
      number: { from: number.from, to: number.to },
      unit,
    };
  }

  /** How many tokens from here are a unit, each touching the next: the longest such run. */
  #unitLength(start: number, converting: boolean): number {
    const first = this.#peek(start);
    if (!first || !(first.kind === 'word' || this.#isSign('%', start) || (converting && this.#isSign('(', start))))
      return 0;
    if (first.text === 'in' && !converting && this.#convertsHere(start)) return 0;
    let text = '';
    let longest = 0;
    for (let length = 1; length <= 12; length++) {
      const token = this.#peek(start + length - 1);
      if (!token || (length > 1 && !touches(this.#peek(start + length - 2), token))) break;
      if (token.kind === 'text' || token.kind === 'bad') break;
      text += token.text;
      const next = this.#peek(start + length);
      const halfway = (next?.kind === 'word' || next?.kind === 'number') && touches(token, next);
      if (!halfway && isUnit(text)) longest = length;
    }
    return longest;
  }

  /** `5 in mm` converts; `5 in` and `5 in in mm` are inches. */
  #convertsHere(start: number): boolean {
    return !this.#isWord('in', start + 1) && this.#unitLength(start + 1, true) > 0;
  }

  /** `name "(" [ expression { "," expression } ] ")"` */
  #call(tight: boolean): Expression {
    const name = this.#word(tight);
    return this.#deeper(() => {
      const open = this.#take(true);
      const values: Expression[] = [];
      while (this.#peek() && !this.#isSign(')')) {
        const before = this.#at;
        values.push(this.#expression('free'));
        if (this.#isSign(',')) {
          this.#take();
          if (!this.#peek() || this.#isSign(')')) values.push(this.#missing('value'));
        } else if (!this.#isSign(')')) break;
        if (this.#at === before) break;
      }
      const end = this.#close(open, ')');
      return { type: 'call', place: span(name.place, end), name, arguments: values };
    });
  }

  #bracket(tight: boolean): Expression {
    return this.#deeper(() => {
      const open = this.#take(tight);
      const inner = this.#pipeline();
      const end = this.#close(open, ')');
      return { type: 'bracket', place: span(open, end), inner };
    });
  }

  #pick(of: Expression): Expression {
    const open = this.#take(true);
    const index = this.#is('number') ? this.#plainNumber() : this.#missing('number');
    const end = this.#close(open, ']');
    return { type: 'pick', place: span(of.place, end), of, index };
  }

  #plainNumber(): Amount {
    const token = this.#take();
    const place = { from: token.from, to: token.to };
    return { type: 'number', place, value: Number(token.text), number: place, unit: undefined };
  }

  #field(of: Expression): Expression {
    const dot = this.#take(true);
    const field = this.#is('word') && touches(dot, this.#peek()) ? this.#word(true) : this.#missing('field');
    return { type: 'field', place: span(of.place, span(dot, field.place)), of, field };
  }

  #close(open: Token, bracket: ')' | ']'): Place {
    if (this.#isSign(bracket)) return this.#take();
    const last = this.#peek(-1) ?? open;
    const end = { from: last.to, to: last.to };
    this.#report('bracket.unclosed', { from: open.from, to: open.to }, { bracket: open.text }, [
      { title: `Add the missing ${bracket}`, place: end, text: bracket },
    ]);
    return end;
  }

  #word(tight = false, hyphens = false): Word {
    const first = this.#take(tight);
    let last = first;
    let text = first.text;
    while (
      hyphens &&
      this.#isSign('-') &&
      this.#is('word', 1) &&
      touches(last, this.#peek()) &&
      touches(this.#peek(), this.#peek(1))
    ) {
      text += this.#take(true).text;
      last = this.#take(true);
      text += last.text;
    }
    return { type: 'word', place: { from: first.from, to: last.to }, text };
  }

  #text(tight = false): Expression & { readonly type: 'text' } {
    const token = this.#take(tight);
    const place = { from: token.from, to: token.to };
    const closed = token.text.length > 1 && token.text.endsWith('"');
    if (!closed)
      this.#report('text.unclosed', place, {}, [
        { title: 'Add the missing "', place: { from: token.to, to: token.to }, text: '"' },
      ]);
    return { type: 'text', place, text: token.text.slice(1, closed ? -1 : undefined) };
  }

  #unitName(length: number, tight: boolean): UnitName {
    const first = this.#take(tight);
    let { to, text } = first;
    for (let i = 1; i < length; i++) {
      const token = this.#take(true);
      to = token.to;
      text += token.text;
    }
    return { type: 'unit', place: { from: first.from, to }, text };
  }

  #missing(expected: Expected): Missing {
    const last = this.#peek(-1);
    const at = last?.to ?? this.#peek()?.from ?? 0;
    const place = { from: at, to: at };
    this.#report('syntax.missing', place, { expected, after: last?.text ?? '' });
    return { type: 'missing', place, expected };
  }

  #strayToken(): Stray {
    const token = this.#take();
    const place = { from: token.from, to: token.to };
    if (token.kind === 'bad')
      this.#report('syntax.character', place, { found: token.text, instead: instead[token.text] }, fixFor(token));
    else this.#report('syntax.unexpected', place, { found: token.text });
    return { type: 'stray', place, text: token.text };
  }

  /** The rest of a statement that is over. */
  #stray(): void {
    this.#strayToken();
    while (this.#peek()) this.#take();
  }

  #deeper<T extends Expression>(read: () => T): T | Missing {
    if (this.#depth >= deepest) {
      const token = this.#peek()!;
      this.#report('syntax.deep', { from: token.from, to: token.to }, {});
      while (this.#peek()) this.#take();
      return { type: 'missing', place: { from: token.to, to: token.to }, expected: 'value' };
    }
    this.#depth++;
    const node = read();
    this.#depth--;
    return node;
  }

  #tooLong(count: number): boolean {
    if (count < longest) return false;
    const token = this.#peek()!;
    this.#report('syntax.deep', { from: token.from, to: token.to }, {});
    while (this.#peek()) this.#take();
    return true;
  }

  #take(tight = false): Token {
    const token = this.#tokens[this.#at++];
    this.#pieces.push({ token, tight });
    return token;
  }

  #peek(ahead = 0): Token | undefined {
    return this.#tokens[this.#at + ahead];
  }

  #is(kind: TokenKind, ahead = 0): boolean {
    return this.#peek(ahead)?.kind === kind;
  }

  #isSign(sign: string, ahead = 0): boolean {
    const token = this.#peek(ahead);
    return token?.kind === 'sign' && token.text === sign;
  }

  #isWord(word: string, ahead = 0): boolean {
    const token = this.#peek(ahead);
    return token?.kind === 'word' && token.text === word;
  }
}

/** What text processors put in place of the signs of the language. */
const instead: Readonly<Record<string, string>> = {
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

const fixFor = (token: Token): { title: string; place: Place; text: string }[] | undefined =>
  instead[token.text] === undefined
    ? undefined
    : [{ title: `Write ${instead[token.text]}`, place: { from: token.from, to: token.to }, text: instead[token.text] }];
