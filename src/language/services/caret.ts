import { askedUnits } from '../askedUnit.ts';
import { arrange } from '../arrange.ts';
import type { Arrangement, Entry } from '../arrangement.ts';
import type { CheckedNotebook } from '../check.ts';
import { inPlace } from '../fit.ts';
import type { Accept, OperandForm, OptionForm, ValueKind } from '../form.ts';
import { parseCell } from '../parser.ts';
import type { Place } from '../diagnostic.ts';
import { checkPipeline } from '../step.ts';
import { tokenize } from '../tokens.ts';
import { childrenOf, type Call, type Node, type Pipeline, type Step } from '../tree.ts';
import type { Kinds } from '../vocabulary.ts';
import { untyped, type Typed, type Work } from '../work.ts';
import { quietly } from './typing.ts';

/** What could stand next in a verb's items. */
export interface Expecting {
  readonly arrangement: Arrangement;
  /** Of the open option, or the operands that may come next. */
  readonly accepts: readonly Accept[];
  /** The operand or option that `accepts` belongs to first. */
  readonly slot: { readonly name: string; readonly option: boolean } | undefined;
  readonly options: readonly OptionForm[];
  /** Operands that are introduced by a word. */
  readonly operands: readonly OperandForm[];
  /** Whether `in` could follow, and ask for the step's value in another unit. */
  readonly asksUnit: boolean;
  /** What comes down the pipe, if the step stands after one. */
  readonly piped: Typed | undefined;
}

/** Where in the grammar a caret stands. */
export type Situation =
  | { readonly type: 'nowhere' }
  | { readonly type: 'statement'; readonly inside: boolean }
  | { readonly type: 'pipe'; readonly kind: ValueKind | undefined }
  | {
      readonly type: 'argument';
      readonly expecting: readonly Expecting[];
      /** After a number, whose unit it may be. */ readonly afterNumber: boolean;
    }
  | {
      readonly type: 'text';
      readonly expecting: readonly Expecting[];
      /** Up to the caret. */ readonly written: string;
    }
  | { readonly type: 'field'; readonly kind: ValueKind | undefined }
  | { readonly type: 'unit'; readonly of: Typed }
  | {
      readonly type: 'value';
      /** Of whose arguments it is the last. */ readonly call: Call | undefined;
    };

export interface Caret {
  readonly situation: Situation;
  /** The word or text that is being typed, on both sides of the caret. */
  readonly place: Place;
  readonly prefix: string;
}

/** Stands for the word that is being typed. */
const marker = '_';

/** Where a caret stands, told from the text before it alone: what follows may be about to change. */
export function caretAt(notebook: CheckedNotebook, cell: number, offset: number): Caret {
  const { text } = notebook.cells[cell];
  const before = text.slice(0, offset);
  const last = tokenize(before).at(-1);
  const after = /^[\p{L}\p{N}_]*/u.exec(text.slice(offset))![0].length;
  if (last?.kind === 'comment' && last.to === offset)
    return { situation: { type: 'nowhere' }, place: { from: offset, to: offset }, prefix: '' };
  if (last?.kind === 'text' && !/.["”“»]$/.test(last.text)) return textCaret(notebook, text, last.from, offset);
  const hyphened = wordBefore(before, true);
  const found = hyphened.includes('-') ? situationAt(notebook, before.slice(0, offset - hyphened.length)) : undefined;
  // Only among a verb's items may a hyphen be part of a word.
  const prefix = found?.type === 'argument' ? hyphened : wordBefore(before, false);
  const from = offset - prefix.length;
  const situation = found?.type === 'argument' ? found : situationAt(notebook, text.slice(0, from));
  return { situation, place: { from, to: offset + after }, prefix };
}

const wordBefore = (text: string, hyphens: boolean): string =>
  (hyphens ? /[\p{L}_][\p{L}\p{N}_]*(?:-[\p{L}\p{N}_]*)*$|$/u : /[\p{L}_][\p{L}\p{N}_]*$|$/u).exec(text)![0];

function textCaret(notebook: CheckedNotebook, text: string, quote: number, offset: number): Caret {
  const rest = /^[^"\r\n]*/.exec(text.slice(offset))![0];
  const closed = text[offset + rest.length] === '"';
  const written = text.slice(quote + 1, offset);
  const situation = situationAt(notebook, text.slice(0, quote));
  const expecting = situation.type === 'argument' ? situation.expecting : [];
  const place = { from: quote + 1, to: closed ? offset + rest.length : offset };
  return { situation: { type: 'text', expecting, written }, place, prefix: written };
}

function situationAt(notebook: CheckedNotebook, before: string): Situation {
  const text = before + marker;
  const { statements } = parseCell(text, notebook.vocabulary);
  const statement = statements.at(-1);
  const path = statement && pathTo(statement.pipeline, before.length);
  return path ? situationOf(path, notebook, text, before.length) : { type: 'nowhere' };
}

type Path = readonly (Node | Pipeline)[];

/** The nodes from the outermost down to the one at the marker. */
function pathTo(node: Node | Pipeline, at: number): Path | undefined {
  if (node.place.to < at) return undefined;
  if (
    'type' in node &&
    (node.type === 'word' || node.type === 'unit' || node.type === 'stray') &&
    node.place.from <= at &&
    node.place.to > at
  )
    return [node];
  const children = childrenOf(node);
  for (let i = children.length - 1; i >= 0; i--) {
    const path = pathTo(children[i], at);
    if (path) return [node, ...path];
  }
  return undefined;
}

const isStep = (node: Node | Pipeline | undefined): node is Step =>
  node !== undefined && 'type' in node && node.type === 'step';

function situationOf(path: Path, notebook: CheckedNotebook, text: string, at: number): Situation {
  const parent = path.at(-2);
  if (parent === undefined || !('type' in parent)) return firstOrPiped(path, notebook, text);
  if (isStep(parent) && parent.verb === path[path.length - 1]) return firstOrPiped(path.slice(0, -1), notebook, text);
  switch (parent.type) {
    case 'field':
      return { type: 'field', kind: typeOf(parent.of, notebook, text).kind };
    case 'convert':
      return { type: 'unit', of: typeOf(parent.of, notebook, text) };
    case 'call':
      return { type: 'value', call: parent };
    case 'step':
      if (parent.asked.some((unit) => unit === path[path.length - 1])) return { type: 'unit', of: untyped };
      return argument(path, path.length - 2, false, notebook, text, at);
    case 'uncertain':
    case 'coverage':
      return { type: 'value', call: undefined };
    case 'number':
    case 'range':
    case 'negative': {
      const step = path.findLastIndex(isStep);
      const direct =
        step >= 0 &&
        path
          .slice(step + 1)
          .every((node) => 'type' in node && ['number', 'range', 'negative', 'word', 'unit'].includes(node.type));
      if (direct) return argument(path, step, parent.type === 'number', notebook, text, at);
      return parent.type === 'number' ? { type: 'unit', of: untyped } : { type: 'value', call: undefined };
    }
    case 'word':
    case 'unit':
    case 'text':
    case 'binary':
    case 'pick':
    case 'bracket':
    case 'assigned':
    case 'missing':
    case 'stray':
      return { type: 'value', call: undefined };
  }
}

/** The first word of a pipeline, or one after a pipe. */
function firstOrPiped(path: Path, notebook: CheckedNotebook, text: string): Situation {
  const pipeline = path[path.length - 2] as Pipeline;
  const index = pipeline.steps.indexOf(path[path.length - 1] as Pipeline['steps'][number]);
  if (index <= 0) return { type: 'statement', inside: path.length > 2 };
  return { type: 'pipe', kind: pipedInto(pipeline, index, notebook, text).kind };
}

function pipedInto(pipeline: Pipeline, index: number, notebook: CheckedNotebook, text: string): Typed {
  return checkPipeline({ ...pipeline, steps: pipeline.steps.slice(0, index) }, quietly(notebook, text));
}

const typeOf = (node: Pipeline['steps'][number], notebook: CheckedNotebook, text: string): Typed =>
  checkPipeline({ place: node.place, steps: [node] }, quietly(notebook, text));

function argument(
  path: Path,
  index: number,
  afterNumber: boolean,
  notebook: CheckedNotebook,
  text: string,
  at: number,
): Situation {
  const step = path[index] as Step;
  const pipeline = path[index - 1] as Pipeline;
  const form = notebook.vocabulary.verbs.get(step.verb.text);
  if (!form) return { type: 'value', call: undefined };
  const position = pipeline.steps.indexOf(step);
  const piped = position > 0 ? pipedInto(pipeline, position, notebook, text) : undefined;
  // The number before the caret is part of the slot that its unit would complete, so it is left out here.
  const work = quietly(notebook, text);
  const items = askedUnits(step, work).items.filter(({ node }) => node.place.from < at && node.place.to <= at);
  const arrangement = arrange(form, step.verb, items, piped !== undefined, work, work.report);
  const listed = items.at(-1)?.comma ?? false;
  return { type: 'argument', expecting: expectingOf(arrangement, listed, piped, work), afterNumber };
}

/** Of the innermost step in place first, then of the steps around it. */
function expectingOf(
  arrangement: Arrangement,
  listed: boolean,
  piped: Typed | undefined,
  work: Work,
): readonly Expecting[] {
  const uses = [...arrangement.options.values()].flat();
  const entries = [...arrangement.operands.values(), ...uses.map((one) => one.entries)].flat();
  const last = entries.find(({ node, inner }) => (inner ?? node.place).to === arrangement.to);
  const own = expecting(arrangement, listed, piped, work.vocabulary.kinds);
  const inner = last && !listed ? (last.inner ?? couldGoOn(last, work)) : last?.inner;
  return inner ? [...expectingOf(inner, listed, undefined, work), own] : [own];
}

/** After `using hann` the rest of a window may follow, though the word could stand alone. */
function couldGoOn({ node, accept, accepts }: Entry, work: Work): Arrangement | undefined {
  if (node.type !== 'word' || accept.type !== 'word') return undefined;
  const step = accepts.flatMap((one) => inPlace(one, node.text, work.vocabulary) ?? []).at(0);
  return step && arrange(step.form, node, [{ node, comma: false }], false, work, work.report);
}

function expecting(arrangement: Arrangement, listed: boolean, piped: Typed | undefined, kinds: Kinds): Expecting {
  const { form, open, next } = arrangement;
  const use = open && arrangement.options.get(open.keyword)?.at(-1);
  const empty = open !== undefined && use?.entries.length === 0;
  const accepts: Accept[] = [];
  let slot: Expecting['slot'];
  if (open) {
    accepts.push(
      ...(open.parts ? open.parts.slice(use?.entries.length ?? 0).flatMap((part) => part.accepts) : open.accepts),
    );
    slot = { name: open.keyword, option: true };
  }
  let missing = false;
  if (!empty && !(open && listed)) {
    const last = form.operands.slice(0, next).at(-1);
    if (last?.many && listed) {
      accepts.push(...last.accepts);
      slot ??= { name: last.name, option: false };
    }
    for (const operand of listed && last?.many ? [] : form.operands.slice(next)) {
      const introduced = operand.keyword !== undefined && operand.keyword === arrangement.keywords.at(-1)?.text;
      if ((operand.keyword !== undefined && !introduced) || arrangement.operands.has(operand.name)) continue;
      accepts.push(...operand.accepts);
      slot ??= { name: operand.name, option: false };
      missing = !operand.optional || introduced;
      if (missing) break;
    }
  }
  const free = !empty && !missing && !listed;
  const options = free
    ? form.options.filter(({ keyword, repeatable }) => repeatable === true || !arrangement.options.has(keyword))
    : [];
  const operands = free
    ? form.operands.filter(({ keyword, name }) => keyword !== undefined && !arrangement.operands.has(name))
    : [];
  const asksUnit = free && (form.gives === 'same' || kinds.get(form.gives)?.units === true);
  return { arrangement, accepts, slot, options, operands, asksUnit, piped };
}
