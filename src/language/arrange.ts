import { cutByComma } from './decimalComma.ts';
import { nearest } from '../units/nearest.ts';
import { finished, type Arrangement, type Entry, type OptionUse } from './arrangement.ts';
import { toldElsewhere } from './elsewhere.ts';
import { choose, inPlace, isTooFree, type FitContext } from './fit.ts';
import type { Accept, Form, OperandForm, OptionForm } from './form.ts';
import { describeAccepts, exampleLine, sampleOf } from './describe.ts';
import type { Fix, Place } from './diagnostic.ts';
import type { Item, Operand, Word } from './tree.ts';
import { changeTo, titles, type Report } from './messages.ts';
import { keywordsOf } from './vocabulary.ts';

/** A step's items as they are read one by one, by the step and by the steps written in place inside it. */
interface ItemReader {
  readonly items: readonly Item[];
  readonly context: FitContext;
  readonly report: Report;
  at: number;
}

/** Lays a step's items out over its form's operands and options. A piped step's first operand is already there. */
export function arrange(
  form: Form,
  verb: Word,
  items: readonly Item[],
  piped: boolean,
  context: FitContext,
  report: Report,
): Arrangement {
  const reader: ItemReader = { items, context, report, at: 0 };
  return new Arranger(form, verb.place, true, piped, reader).arrange();
}

class Arranger {
  readonly #form: Form;
  readonly #reader: ItemReader;
  /** Keywords of the step outside, which end this one. */
  readonly #outer: ReadonlySet<string> | undefined;
  readonly #piped: boolean;
  readonly #result: Arrangement;
  #open: { form: OptionForm; use: OptionUse } | undefined;
  /** Index of the operand that the next item would be. */
  #next: number;

  constructor(
    form: Form,
    place: Place,
    named: boolean,
    piped: boolean,
    reader: ItemReader,
    outer?: ReadonlySet<string>,
  ) {
    this.#form = form;
    this.#reader = reader;
    this.#outer = outer;
    this.#piped = piped;
    this.#next = piped ? 1 : 0;
    const lists = { operands: new Map<string, Entry[]>(), options: new Map<string, OptionUse[]>(), keywords: [] };
    this.#result = { form, place, named, ...lists, to: place.to, open: undefined, next: 0 };
  }

  arrange(): Arrangement {
    while (this.#reader.at < this.#reader.items.length && this.#item());
    this.#result.open = this.#takesMore() ? this.#open?.form : undefined;
    this.#result.next = this.#next;
    this.#closeOption();
    this.#requireOperands();
    return finished(this.#result);
  }

  /** Puts the next item in its place; false when it belongs to the step outside. */
  #item(): boolean {
    const { items, at } = this.#reader;
    const { node } = items[at];
    const listed = at > 0 && items[at - 1].comma;
    if (node.type === 'stray' || (listed && this.#isDecimal(node))) return this.#skip();
    if (!(listed && this.#endsList(node))) {
      if (this.#takesMore() && (listed || this.#open!.use.entries.length === 0) && this.#intoOption(true)) return true;
      if (this.#isWanted(node, listed) && this.#intoOperand(true)) return true;
    }
    if (node.type === 'word') {
      if (this.#startOption(node) || this.#startOperand(node) || this.#isElsewhere(node)) return true;
      if (!listed && this.#isMistaken(node)) return this.#misfit(node, listed);
      if (this.#outer?.has(node.text)) return false;
    }
    if (this.#takesMore() && this.#intoOption(true)) return true;
    if (this.#intoOperand(true)) return true;
    if (this.#belongsOutside(node, listed)) return false;
    return this.#misfit(node, listed);
  }

  /**
   * A comma may end a line, so that a keyword follows it (`conditions gel, air,` and then `primary 10..50 Hz`): taken into
   * the list it would leave what stands after it without a place.
   */
  #endsList(node: Operand): boolean {
    if (node.type !== 'word' || !this.#isKeyword(node.text)) return false;
    const { items, at } = this.#reader;
    const next = items[at].comma ? undefined : items.at(at + 1)?.node;
    return next !== undefined && !(next.type === 'word' && this.#isKeyword(next.text));
  }

  /** A word that belongs to another step or behind another keyword: passed over with what follows it. */
  #isElsewhere({ text: word }: Word): boolean {
    const { items, at, context, report } = this.#reader;
    const meant = context.bound(word) ? undefined : this.#form.elsewhere?.find(({ words }) => words.includes(word));
    if (meant === undefined) return false;
    this.#skipOption();
    const passed = items.slice(at, this.#reader.at).map(({ node }) => node);
    const { place, facts } = toldElsewhere(meant, this.#form.verb, passed, context.text);
    report('word.elsewhere', place, facts);
    return true;
  }

  /** A word that stands for a keyword by mistake, and is no name. */
  #isMistaken({ text }: Word): boolean {
    if (this.#reader.context.bound(text) || this.#emptyOption()) return false;
    return this.#form.options.some(({ mistaken }) => mistaken?.includes(text) === true);
  }

  /** Whether a step in place leaves an item to the step around it. */
  #belongsOutside(node: Operand, listed: boolean): boolean {
    if (!this.#outer || listed || this.#emptyOption()) return false;
    if (this.#form.operands[this.#next]?.optional === false) return false;
    return (
      node.type !== 'word' || this.#likelyKeyword(node.text).length === 0 || nearest(node.text, this.#outer).length > 0
    );
  }

  /** An item that fits nowhere: take it where it was likely meant, so that the trouble says what is wanted there. */
  #misfit(node: Operand, listed: boolean): boolean {
    if (this.#takesMore() && (listed || this.#emptyOption()) && this.#intoOption(false)) return true;
    const word = node.type === 'word' ? this.#likelyKeyword(node.text) : [];
    if (node.type === 'word' && word.length > 0 && !listed) {
      this.#closeOption();
      this.#reportUnknown(node, word);
      return this.#skipOption();
    }
    if (this.#intoOperand(false)) return true;
    if (this.#takesMore() && this.#intoOption(false)) return true;
    if (node.type === 'word' && !this.#reader.context.bound(node.text)) {
      this.#reportUnknown(node, []);
    } else if (this.#isComma(node, this.#reader.items.at(this.#reader.at + 1)?.node)) {
      this.#skip();
    } else if (node.type !== 'missing') {
      this.#reader.report('operand.extra', node.place, { verb: this.#form.verb, found: this.#textOf(node) });
    }
    return this.#skip();
  }

  /** A word that is no option; `near` are those that it may have been meant to be. */
  #reportUnknown({ text: word, place }: Word, near: readonly string[]): void {
    const fixes = near.slice(0, 1).map((other) => changeTo(other, place));
    const facts = { verb: this.#form.verb, word, nearest: near, known: this.#keywords() };
    this.#reader.report('option.unknown', place, facts, fixes);
  }

  /** `2,5 Hz` where one quantity is wanted: a decimal comma, whose second half belongs nowhere. */
  #isDecimal(node: Operand): boolean {
    const { items, at } = this.#reader;
    const many = this.#open ? this.#open.form.many : this.#lastOperand()?.many;
    return many !== true && this.#isComma(items[at - 1].node, node);
  }

  /** Tells of two numbers that a decimal comma made of one. */
  #isComma(before: Operand, node: Operand | undefined): boolean {
    const cut = cutByComma(before, node, this.#reader.context.text);
    if (cut === undefined) return false;
    this.#reader.report('number.comma', cut.place, cut, [changeTo(cut.instead, cut.place)]);
    return true;
  }

  /** Passes over a misspelt keyword and what would have been its values, so that one mistake makes one message. */
  #skipOption(): boolean {
    this.#skip();
    while (this.#reader.at < this.#reader.items.length) {
      const { node } = this.#reader.items[this.#reader.at];
      if (node.type === 'word' && this.#isKeyword(node.text)) break;
      this.#skip();
    }
    return true;
  }

  #likelyKeyword(word: string): readonly string[] {
    const meant = this.#form.options.find(({ mistaken }) => mistaken?.includes(word) === true);
    return meant === undefined ? nearest(word, this.#keywords()) : [meant.keyword];
  }

  #keywords(): readonly string[] {
    return keywordsOf(this.#form);
  }

  /** The operand that was filled last. */
  #lastOperand(): OperandForm | undefined {
    return this.#form.operands.slice(0, this.#next).at(-1);
  }

  /** A required operand that takes any word takes even a keyword: `channel r rate`. */
  #isWanted(node: Operand, listed: boolean): boolean {
    if (node.type !== 'word') return false;
    const operand = this.#form.operands.at(this.#next);
    const last = this.#lastOperand();
    if (listed && !this.#open && last?.many && choose(node, last.accepts, this.#reader.context)?.sure) return true;
    if (!operand || operand.keyword !== undefined || operand.optional || this.#open) return false;
    return operand.accepts.some(({ type }) => type === 'channel');
  }

  #startOption(word: Word): boolean {
    const form = this.#form.options.find(({ keyword }) => keyword === word.text);
    if (!form) return false;
    this.#closeOption();
    const use: OptionUse = { keyword: word, entries: [] };
    const known = this.#result.options.get(form.keyword);
    if (known && !form.repeatable) {
      this.#reader.report('option.twice', word.place, { verb: this.#form.verb, option: form.keyword });
    } else if (known) known.push(use);
    else this.#result.options.set(form.keyword, [use]);
    this.#open = { form, use };
    this.#result.keywords.push(word);
    return this.#skip();
  }

  #startOperand(word: Word): boolean {
    const index = this.#form.operands.findIndex(({ keyword }) => keyword === word.text);
    if (index < 0) return false;
    this.#closeOption();
    if (this.#result.operands.has(this.#form.operands[index].name)) {
      this.#reader.report('option.twice', word.place, { verb: this.#form.verb, option: word.text });
      return this.#skipOption();
    }
    this.#next = index;
    this.#result.keywords.push(word);
    this.#skip();
    const item = this.#reader.items.at(this.#reader.at);
    if (item && !this.#fill(index, item.node)) this.#fillLoosely(index, item.node);
    return true;
  }

  #fillLoosely(index: number, node: Operand): boolean {
    const operand = this.#form.operands[index];
    const chosen = choose(node, operand.accepts, this.#reader.context);
    if (!chosen || (node.type === 'word' && this.#isKeyword(node.text))) return false;
    if (this.#isLaterWord(index, node)) return false;
    return this.#put(index, this.#entry(node, chosen.accept, operand.accepts, false));
  }

  /** A word that is no name is sooner a misspelt one of a later operand than the value of this one that may be left out. */
  #isLaterWord(index: number, node: Operand): boolean {
    const { operands } = this.#form;
    if (!operands[index].optional || node.type !== 'word' || this.#reader.context.bound(node.text)) return false;
    const isWord = ({ accepts }: OperandForm): boolean => accepts.some(({ type }) => type === 'word');
    return !isWord(operands[index]) && operands.slice(index + 1).some(isWord);
  }

  #isKeyword(word: string): boolean {
    return this.#outer?.has(word) === true || this.#keywords().includes(word);
  }

  #fill(index: number, node: Operand): boolean {
    const { accepts } = this.#form.operands[index];
    const chosen = choose(node, accepts, this.#reader.context);
    if (chosen?.sure !== true || (chosen.accept.type === 'channel' && this.#isTooFree(index))) return false;
    return this.#put(index, this.#entry(node, chosen.accept, accepts, true));
  }

  #isTooFree(index: number): boolean {
    const { items, at } = this.#reader;
    return isTooFree(
      items[at].node,
      items[at].comma ? undefined : items.at(at + 1)?.node,
      this.#form.operands.slice(index),
    );
  }

  #put(index: number, entry: Entry): boolean {
    const { name } = this.#form.operands[index];
    const before = this.#result.operands.get(name);
    if (before) before.push(entry);
    else this.#result.operands.set(name, [entry]);
    this.#next = index + 1;
    return true;
  }

  /** Into the operand that is being filled, or the next that it fits; optional ones may be passed over. */
  #intoOperand(sure: boolean): boolean {
    const { operands } = this.#form;
    const { node } = this.#reader.items[this.#reader.at];
    const put = (index: number): boolean => (sure ? this.#fill(index, node) : this.#fillLoosely(index, node));
    const last = this.#lastOperand();
    if (last?.many && this.#result.operands.has(last.name) && !this.#open && put(this.#next - 1)) return true;
    for (let index = this.#next; index < operands.length; index++) {
      const operand = operands[index];
      if (operand.keyword === undefined && !this.#result.operands.has(operand.name) && put(index)) {
        this.#closeOption();
        return true;
      }
      if (!operand.optional && operand.keyword === undefined) return false;
    }
    return false;
  }

  #takesMore(): boolean {
    if (!this.#open) return false;
    const { form, use } = this.#open;
    if (form.parts) return use.entries.length < form.parts.length;
    return form.accepts.length > 0 && (form.many === true || use.entries.length === 0);
  }

  #emptyOption(): boolean {
    return this.#takesMore() && this.#open!.use.entries.length === 0;
  }

  #intoOption(sure: boolean): boolean {
    const { form, use } = this.#open!;
    const { node } = this.#reader.items[this.#reader.at];
    const accepts = form.parts ? form.parts.slice(use.entries.length).flatMap((part) => part.accepts) : form.accepts;
    const chosen = choose(node, accepts, this.#reader.context);
    if (!chosen || (sure && !chosen.sure)) return false;
    if (!chosen.sure && node.type === 'word' && this.#isKeyword(node.text)) return false;
    const part = form.parts?.find((one) => one.accepts.includes(chosen.accept));
    use.entries.push(this.#entry(node, chosen.accept, part?.accepts ?? form.accepts, chosen.sure));
    return true;
  }

  #closeOption(): void {
    if (!this.#open) return;
    const { form, use } = this.#open;
    const needs = form.parts
      ? form.parts.some((part, i) => !part.optional && i >= use.entries.length)
      : form.accepts.length > 0 && use.entries.length === 0;
    if (needs) {
      const place = { from: use.keyword.place.to, to: use.keyword.place.to };
      const wanted = form.parts ? form.parts[use.entries.length].accepts : form.accepts;
      const facts = { verb: this.#form.verb, option: form.keyword, wanted: this.#inWords(wanted) };
      this.#reader.report('option.missing', place, facts, insertion(place, sampleOf(wanted)));
    }
    this.#open = undefined;
  }

  /** Takes the item, and with a step in place all that belongs to it. */
  #entry(node: Operand, accept: Accept, accepts: readonly Accept[], sure: boolean): Entry {
    const step = sure && node.type === 'word' ? this.#stepInPlace(node.text, accept, accepts) : undefined;
    if (!step) {
      this.#skip();
      return { node, accept, accepts, sure };
    }
    if (step.named) this.#skip();
    const before = this.#reader.at;
    const outer = new Set([...(this.#outer ?? []), ...this.#keywords()]);
    const inner = new Arranger(step.form, node.place, step.named, false, this.#reader, outer).arrange();
    if (this.#reader.at === before && !step.named) this.#skip();
    this.#result.to = Math.max(this.#result.to, inner.to);
    return { node, accept, accepts, sure, inner };
  }

  /** A word that stands for itself (`using hann`) begins a step when what follows goes on with it (`using hann 2 s`). */
  #stepInPlace(word: string, accept: Accept, accepts: readonly Accept[]): { form: Form; named: boolean } | undefined {
    if (accept.type !== 'word') return inPlace(accept, word, this.#reader.context.vocabulary);
    const step = accepts.flatMap((one) => inPlace(one, word, this.#reader.context.vocabulary) ?? []).at(0);
    const { items, at } = this.#reader;
    const next = items[at].comma ? undefined : items.at(at + 1)?.node;
    if (!step || !next) return undefined;
    if (next.type === 'word') return step.form.options.some(({ keyword }) => keyword === next.text) ? step : undefined;
    const second = step.form.operands.at(1);
    return second && choose(next, second.accepts, this.#reader.context) ? step : undefined;
  }

  #requireOperands(): void {
    const { verb, operands } = this.#form;
    operands.forEach(({ name, keyword, accepts, optional }, index) => {
      if (optional || this.#result.operands.has(name) || (this.#piped && index === 0)) return;
      const place = { from: this.#result.to, to: this.#result.to };
      const sample = keyword !== undefined || this.#result.options.size === 0 ? sampleOf(accepts) : undefined;
      const fixes = insertion(place, sample && (keyword === undefined ? sample : `${keyword} ${sample}`));
      this.#reader.report(
        'operand.missing',
        place,
        { verb, operand: name, keyword, wanted: this.#inWords(accepts), example: exampleLine(this.#form) },
        fixes,
      );
    });
  }

  #skip(): true {
    this.#result.to = Math.max(this.#result.to, this.#reader.items[this.#reader.at].node.place.to);
    this.#reader.at++;
    return true;
  }

  #inWords(accepts: readonly Accept[]): readonly string[] {
    return describeAccepts(accepts, this.#reader.context.vocabulary.kinds);
  }

  #textOf(node: Operand): string {
    return this.#reader.context.text.slice(node.place.from, node.place.to);
  }
}

const insertion = (place: Place, text: string | undefined): readonly Fix[] =>
  text === undefined ? [] : [{ title: titles.add(text), place, text: ` ${text}` }];
