import { Cursor, span, touches } from './cursor.ts';
import { sparely } from './sparely.ts';
import type {
  Amount,
  Assigned,
  Binary,
  Expression,
  Item,
  Missing,
  Operand,
  Piece,
  Pipeline,
  Step,
  UnitName,
  Word,
} from './tree.ts';

/** Where an expression stands: among a verb's operands, `r -1 s` is two items and `third-octave` one word. */
type Mode = 'operand' | 'free';

/** Recursive descent over one statement's tokens, one short method for each form of the grammar. */
export class StatementParser extends Cursor {
  /** `[ name "=" ] pipeline` */
  statement(): { name: Word | undefined; pipeline: Pipeline; pieces: readonly Piece[] } {
    let name: Word | undefined;
    if (this.is('word') && this.isSign('=', 1)) {
      name = this.word();
      this.take();
    }
    const pipeline = this.#pipeline();
    if (this.peek()) this.stray();
    return { name, pipeline, pieces: sparely(this.pieces) };
  }

  /** `step { "|" step }` */
  #pipeline(): Pipeline {
    const steps = [this.#step(true)];
    for (let count = 0; this.isSign('|'); count++) {
      if (this.tooLong(count)) break;
      this.take();
      steps.push(this.#step(false));
    }
    return { place: span(steps[0].place, steps[steps.length - 1].place), steps };
  }

  /** `verb { operand [","] } { option } | expression` */
  #step(first: boolean): Step | Expression {
    if (this.#startsVerb(first)) {
      const verb = this.word();
      const asked: (UnitName | Missing)[] = [];
      const items = sparely(this.#items(asked));
      const last = [...items.map(({ node }) => node), ...asked].reduce((to, { place }) => span(to, place), verb.place);
      return { type: 'step', place: span(verb.place, last), verb, items, asked: sparely(asked) };
    }
    const token = this.peek();
    if (!token || this.isSign('|') || this.isSign(')')) return this.missing('step');
    return this.#expression('free');
  }

  /** A verb, or an unknown word that stands where a verb would: before an operand or after a pipe. */
  #startsVerb(first: boolean): boolean {
    const token = this.peek();
    if (token?.kind !== 'word' || token.text === 'in') return false;
    const next = this.peek(1);
    const bracket = this.isSign('(', 1);
    if (bracket && this.vocabulary.functions.has(token.text)) return false;
    if (this.vocabulary.verbs.has(token.text))
      return !(this.isSign('.', 1) || (this.isSign('[', 1) && touches(token, next)));
    if (bracket) return !touches(token, next);
    if (next?.kind === 'word') return next.text !== 'in' && !this.isCoverage(1);
    if (next?.kind === 'number' || next?.kind === 'text') return true;
    return !first && (next === undefined || this.isSign('|', 1) || this.isSign(')', 1));
  }

  /** `{ operand [","] } { option }`, flat; an `in UNIT` that follows none of them goes into `asked`. */
  #items(asked: (UnitName | Missing)[]): readonly Item[] {
    const items: Item[] = [];
    for (;;) {
      const token = this.peek();
      if (!token || this.isSign('|') || (this.isSign(')') && this.depth > 0)) break;
      if (this.listTooLong(items.length)) break;
      if (this.isSign(',')) {
        const last = items.at(-1);
        if (!last || last.comma) items.push({ node: this.strayToken(), comma: false });
        else {
          items[items.length - 1] = { node: last.node, comma: true };
          this.take();
        }
      } else if (token.text === 'in' && token.kind === 'word') {
        this.take();
        asked.push(this.#convertTo());
      } else items.push({ node: this.#operand(), comma: false });
    }
    if (items.at(-1)?.comma) items.push({ node: this.missing('operand'), comma: false });
    return items;
  }

  /** One item: `x="sensor 2"`, `%`, a range or an expression. */
  #operand(): Operand {
    const token = this.peek()!;
    if (token.kind === 'word' && this.isSign('=', 1)) return this.#assigned();
    if (this.isSign('%')) return this.unitName(1, false);
    const starts =
      token.kind === 'word' ||
      token.kind === 'number' ||
      token.kind === 'text' ||
      this.isSign('(') ||
      this.isSign('-') ||
      this.isSign('..');
    if (!starts || token.text === 'in') return this.strayToken();
    const from = this.isSign('..') ? this.missing('value') : this.#expression('operand');
    if (!this.isSign('..')) return from;
    this.take(true);
    const to = this.#rangeEnd();
    return { type: 'range', place: span(from.place, to.place), from, to };
  }

  #rangeEnd(): Expression {
    const token = this.peek();
    const starts = token?.kind === 'word' || token?.kind === 'number' || this.isSign('(') || this.isSign('-');
    if (!starts || (token?.kind === 'word' && this.vocabulary.keywords.has(token.text)))
      return this.missing('end of range');
    this.ending = true;
    const end = this.#expression('operand', true);
    this.ending = false;
    return end;
  }

  #assigned(): Assigned {
    const name = this.word();
    this.take(true);
    const token = this.peek();
    const text = token?.kind === 'text' ? this.text(true) : this.missing('text');
    return { type: 'assigned', place: span(name.place, text.place), name, text };
  }

  /** `sum [ "in" unit ]` */
  #expression(mode: Mode, tight = false): Expression {
    let expression = this.#sum(mode, tight);
    for (let count = 0; this.isWord('in') || (mode === 'free' && this.isCoverage()); count++) {
      if (this.tooLong(count)) break;
      if (!this.isWord('in')) {
        expression = this.#coverage(expression);
        continue;
      }
      this.take();
      const unit = this.#convertTo();
      expression = { type: 'convert', place: span(expression.place, unit.place), of: expression, unit };
    }
    return expression;
  }

  /** Whether `coverage 95 %` stands here, and no name of that spelling. */
  protected isCoverage(ahead = 0): boolean {
    return this.isWord('coverage', ahead) && !this.isSign('=', ahead + 1);
  }

  #coverage(of: Expression): Expression {
    this.take();
    const level = this.is('number') ? this.#amount(false) : this.missing('value');
    return { type: 'coverage', place: span(of.place, level.place), of, level };
  }

  #convertTo(): UnitName | Missing {
    const known = this.unitLength(0, true);
    if (known > 0) return this.unitName(known, false);
    let length = 0;
    while (
      this.peek(length) &&
      (length === 0 || touches(this.peek(length - 1), this.peek(length))) &&
      this.partOfUnit(length)
    )
      length++;
    return length > 0 ? this.unitName(length, false) : this.missing('unit');
  }

  /** `product { ("+" | "-") product }` */
  #sum(mode: Mode, tight: boolean): Expression {
    let left = this.#product(mode, tight);
    for (let count = 0; this.isSign('+') || (this.isSign('-') && this.#minusJoins(mode)); count++) {
      if (this.tooLong(count)) break;
      left = this.#binary(left, () => this.#product(mode, false));
    }
    return left;
  }

  /** Among operands `a - b` and `2-1` subtract; in `r -1 s` the minus belongs to the next item. */
  #minusJoins(mode: Mode): boolean {
    if (mode === 'free') return true;
    const before = touches(this.peek(-1), this.peek());
    const after = touches(this.peek(), this.peek(1));
    return before === after;
  }

  /** `signed { ("*" | "/") signed }` */
  #product(mode: Mode, tight: boolean): Expression {
    let left = this.#signed(mode, tight);
    for (let count = 0; this.isSign('*') || this.isSign('/'); count++) {
      if (this.tooLong(count)) break;
      left = this.#binary(left, () => this.#signed(mode, false));
    }
    return left;
  }

  #binary(left: Expression, right: () => Expression, tight = false): Binary {
    const operator = this.take(tight).text as Binary['operator'];
    const operand = right();
    return { type: 'binary', place: span(left.place, operand.place), operator, left, right: operand };
  }

  /** `"-" signed | power` */
  #signed(mode: Mode, tight: boolean): Expression {
    if (!this.isSign('-')) return this.#power(mode, tight);
    return this.deeper(() => {
      const minus = this.take(tight);
      const of = this.#signed(mode, true);
      return { type: 'negative', place: span(minus, of.place), of };
    });
  }

  /** `primary [ "^" signed ]`; the blanks keep `(5 s) ^ 2` from being read as 5 s². */
  #power(mode: Mode, tight: boolean): Expression {
    const base = this.#uncertain(this.#primary(mode, tight));
    if (!this.isSign('^')) return base;
    const close = !endsInUnit(base);
    return this.deeper(() => this.#binary(base, () => this.#signed(mode, close), close));
  }

  /** `primary [ ("±" | "+/-") quantity [ "rectangular" | "triangular" ] [ "dof" number ] ]` */
  #uncertain(of: Expression): Expression {
    if (of.type === 'missing' || !(this.isSign('±') || this.isSign('+/-'))) return of;
    this.take();
    const by = this.is('number') ? this.#amount(false) : this.missing('value');
    const shape = (['rectangular', 'triangular'] as const).find((word) => this.isWord(word));
    let last = shape === undefined ? by.place : this.word(false).place;
    let freedom: Amount | undefined;
    if (this.isWord('dof') && this.is('number', 1)) {
      this.take();
      freedom = this.#plainNumber();
      last = freedom.place;
    }
    return { type: 'uncertain', place: span(of.place, last), of, by, limits: shape, freedom };
  }

  /** `quantity | text | call | bracket | name`, with picks and fields after it. */
  #primary(mode: Mode, tight: boolean): Expression {
    let expression = this.#simple(mode, tight);
    if (expression.type === 'missing' || expression.type === 'number') return expression;
    for (let count = 0; this.isSign('[') || this.isSign('.'); count++) {
      if (this.tooLong(count)) break;
      expression = this.isSign('[') ? this.#pick(expression) : this.#field(expression);
    }
    return expression;
  }

  #simple(mode: Mode, tight: boolean): Expression {
    const token = this.peek();
    if (token?.kind === 'number') return this.#amount(tight);
    if (token?.kind === 'text') return this.text(tight);
    if (token?.kind === 'word' && token.text !== 'in') {
      if (this.isSign('(', 1) && (touches(token, this.peek(1)) || this.vocabulary.functions.has(token.text)))
        return this.#call(tight);
      return this.word(tight, mode === 'operand');
    }
    if (this.isSign('(')) return this.#bracket(tight);
    return this.missing('value');
  }

  /** `40 N/mm`; a word after a number is its unit unless it has another meaning. */
  #amount(tight: boolean): Amount {
    const number = this.take(tight);
    const length = this.#unitHere();
    const unit = length > 0 ? this.unitName(length, false) : undefined;
    return {
      type: 'number',
      place: span(number, unit?.place ?? number),
      value: Number(number.text),
      number: { from: number.from, to: number.to },
      unit,
    };
  }

  /** How many tokens from here are the unit of the number before; an unknown word with no other meaning is one too. */
  #unitHere(): number {
    const next = this.peek();
    const known = this.unitLength(0, false);
    if (next?.kind !== 'word') return known;
    const { verbs, functions, keywords, words } = this.vocabulary;
    if (this.isSign('=', 1) || (next.text !== 'in' && keywords.has(next.text))) return 0;
    if (functions.has(next.text) && this.isSign('(', 1)) return 0;
    if (this.ending && this.isSign('..', Math.max(known, 1))) return 0;
    if (this.isSign('.', 1) || this.isSign('[', 1)) return 0;
    if (known > 0 || next.text === 'in') return known;
    const taken = verbs.has(next.text) || functions.has(next.text) || words.has(next.text);
    return taken ? 0 : 1;
  }

  /** `name "(" [ expression { "," expression } ] ")"` */
  #call(tight: boolean): Expression {
    const name = this.word(tight);
    return this.deeper(() => {
      const open = this.take(true);
      const values: Expression[] = [];
      while (this.peek() && !this.isSign(')')) {
        if (this.listTooLong(values.length)) break;
        const before = this.at;
        values.push(this.#expression('free'));
        if (this.isSign(',')) {
          this.take();
          if (!this.peek() || this.isSign(')')) values.push(this.missing('value'));
        } else if (!this.isSign(')')) break;
        if (this.at === before) break;
      }
      const end = this.close(open, ')');
      return { type: 'call', place: span(name.place, end), name, arguments: values };
    });
  }

  #bracket(tight: boolean): Expression {
    return this.deeper(() => {
      const open = this.take(tight);
      const inner = this.#pipeline();
      const end = this.close(open, ')');
      return { type: 'bracket', place: span(open, end), inner };
    });
  }

  #pick(of: Expression): Expression {
    const open = this.take(true);
    const index = this.is('number') ? this.#plainNumber() : this.missing('number');
    const end = this.close(open, ']');
    return { type: 'pick', place: span(of.place, end), of, index };
  }

  #plainNumber(): Amount {
    const token = this.take();
    const place = { from: token.from, to: token.to };
    return { type: 'number', place, value: Number(token.text), number: place, unit: undefined };
  }

  #field(of: Expression): Expression {
    const dot = this.take(true);
    const field = this.is('word') && touches(dot, this.peek()) ? this.word(true) : this.missing('field');
    return { type: 'field', place: span(of.place, span(dot, field.place)), of, field };
  }
}

/** Whether a sign behind it, without a blank, would be read as a part of its unit. */
const endsInUnit = (base: Expression): boolean =>
  (base.type === 'number' && base.unit !== undefined) ||
  (base.type === 'uncertain' &&
    base.place.to === base.by.place.to &&
    base.by.type === 'number' &&
    base.by.unit !== undefined);
