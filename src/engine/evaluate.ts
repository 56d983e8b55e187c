import type { CellName } from '../language/cellName.ts';
import type { Checked, CheckedArgument, CheckedArguments, CheckedStatement } from '../language/checked.ts';
import type { Place } from '../language/diagnostic.ts';
import { arithmetic, convertQuantity, covered, negate, uncertain } from '../verbs/arithmetic.ts';
import { verbNamed } from '../verbs/catalogue.ts';
import { evaluateFunction, functionNamed } from '../verbs/functions.ts';
import { fieldOf } from '../values/fields.ts';
import { descriptionOf } from '../values/kinds.ts';
import { inUnit } from '../values/inUnit.ts';
import { pickOf } from '../values/pick.ts';
import type { QuantityValue } from '../values/quantity.ts';
import type { Value } from '../values/value.ts';
import { answered } from '../result/result.ts';
import type { Failure, Message, Result, Warning } from '../result/result.ts';
import {
  faultsBehind,
  type Answer,
  type Argument,
  type Arguments,
  type Answered,
  type Context,
  type Verb,
} from '../verbs/verb.ts';
import type { Watch } from '../values/ports.ts';
import type { Cache } from './cache.ts';
import type { Files, History } from './host.ts';
import { firstUnfit, firstUnfitParameter } from './hold.ts';
import type { KeptAnswers } from './kept/keptAnswers.ts';
import type { Keys } from './key.ts';
import { refuseFault, tell } from './messages.ts';

/** A failure with the place of what is to blame. */
export interface PlacedFailure extends Failure {
  readonly place: Place;
}

export type Evaluated<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: PlacedFailure };

/** What evaluation of one statement needs; one object a statement, since it gathers that statement's warnings. */
export interface EvaluationContext {
  readonly files: Files;
  readonly watch: Watch;
  readonly cache: Cache;
  /** What was kept by earlier runs of the program. */
  readonly kept?: KeptAnswers | undefined;
  readonly keys: Keys;
  readonly digest: (text: string) => string;
  readonly valueOf: (name: string) => Value | undefined;
  /** The statement that binds a name, for a reader. */
  readonly boundAt?: (name: string) => { readonly cell: CellName; readonly line: number } | undefined;
  readonly history?: History;
  /** A call as it is written, where it is all of a statement but its name. */
  readonly sourceOf?: (call: Call) => string | undefined;
  /** What is evaluated: it tells the inputs of its uncertainties from those of others. */
  readonly statement?: Pick<CheckedStatement, 'name' | 'place' | 'cell' | 'line'>;
  /** Whether a call that is not in the cache may be computed; all may unless said. */
  readonly mayCompute?: (call: Call) => Promise<boolean>;
}

type Call = Extract<Checked, { type: 'call' }>;

/** Milliseconds from which an answer is sooner read than computed again. */
const worthKeeping = 5;

/** Evaluates one statement's expression, taking from the cache every call whose key is already there. */
export class Evaluator {
  readonly #context: EvaluationContext;
  readonly warnings: Warning[] = [];
  /** Whether any call had to be computed. */
  computed = false;

  constructor(context: EvaluationContext) {
    this.#context = context;
  }

  async value(node: Checked): Promise<Evaluated<Value>> {
    switch (node.type) {
      case 'call':
        return this.#call(node);
      case 'name': {
        const value = this.#context.valueOf(node.name);
        return value === undefined
          ? failed(tell('name.failed', { name: node.name, ...this.#context.boundAt?.(node.name) }), node.place)
          : { ok: true, value };
      }
      case 'pick': {
        const of = await this.value(node.of);
        return of.ok ? placed(pickOf(of.value, node.index), node.place) : of;
      }
      case 'field': {
        const of = await this.value(node.of);
        return of.ok ? placed(fieldOf(of.value, node.field), node.place) : of;
      }
      case 'quantity':
        return { ok: true, value: { kind: 'quantity', quantity: node.quantity } };
      case 'text':
        return { ok: true, value: { kind: 'text', text: node.text } };
      case 'binary': {
        const left = await this.#quantity(node.left);
        if (!left.ok) return left;
        const right = await this.#quantity(node.right);
        return right.ok ? placed(arithmetic(node.operator, left.value, right.value), node.place) : right;
      }
      case 'negative': {
        const of = await this.#quantity(node.of);
        return of.ok ? placed(negate(of.value), node.place) : of;
      }
      case 'uncertain': {
        const of = await this.#quantity(node.of);
        const { by, freedom = Infinity, place } = node;
        return of.ok ? placed(uncertain(of.value, by, { input: this.#input(place), df: freedom }), place) : of;
      }
      case 'coverage': {
        const of = await this.#quantity(node.of);
        return of.ok ? placed(covered(of.value, node.level), node.place) : of;
      }
      case 'convert':
        return this.#convert(node);
      case 'function':
        return this.#function(node);
      case 'range':
      case 'word':
      case 'unit':
        throw new Error(`a ${node.type} stands only as an argument`);
    }
  }

  /** What an input is called that is stated at a place: by the name that it is bound to, so that uses of the name share it. */
  #input({ from }: Place): string {
    const { statement } = this.#context;
    const called = statement?.name?.text ?? `cell ${(statement?.cell ?? 0) + 1}, line ${statement?.line ?? 1}`;
    const at = from - (statement?.place.from ?? 0);
    return `${called} @${at}`;
  }

  /** What was told in another unit is kept as calls are: runs are long. */
  async #convert(node: Extract<Checked, { type: 'convert' }>): Promise<Evaluated<Value>> {
    const of = await this.value(node.of);
    if (!of.ok) return of;
    if (of.value.kind === 'quantity') return placed(convertQuantity(of.value, node.unit), node.place);
    const key = await this.#context.keys.of(node);
    const known = this.#context.cache.get(key);
    if (known !== undefined) return this.#accept(known);
    const found = inUnit(of.value, node.unit);
    if (found.ok) this.#context.cache.set(key, answered(found.value));
    return placed(found, node.place);
  }

  async #quantity(node: Checked): Promise<Evaluated<QuantityValue>> {
    const found = await this.value(node);
    if (!found.ok) return found;
    if (found.value.kind === 'quantity') return { ok: true, value: found.value };
    return failed(tell('quantity.expected', { kind: descriptionOf(found.value).words }), node.place);
  }

  async #function(node: Extract<Checked, { type: 'function' }>): Promise<Evaluated<Value>> {
    const given: QuantityValue[] = [];
    for (const argument of node.arguments) {
      const found = await this.#quantity(argument);
      if (!found.ok) return found;
      given.push(found.value);
    }
    const named = functionNamed(node.name);
    if (named === undefined) throw new Error(`there is no function ${node.name}`);
    const unfit = firstUnfitParameter(
      named.form,
      node,
      given.map(({ quantity }) => quantity),
    );
    return unfit === undefined
      ? placed(evaluateFunction(named, given, this.#input(node.place)), node.place)
      : { ok: false, failure: unfit };
  }

  async #call(node: Call): Promise<Evaluated<Value>> {
    const key = await this.#context.keys.of(node);
    const known = this.#context.cache.get(key) ?? (await this.#recalled(key));
    if (known !== undefined) return this.#accept(known);
    const verb = verbNamed(node.verb);
    if (verb === undefined) throw new Error(`there is no verb ${node.verb}`);
    const given = await this.#argumentsOf(node);
    if (!given.ok) return given;
    const unfit = firstUnfit(verb.form, node, given.value);
    if (unfit !== undefined) return { ok: false, failure: unfit };
    if ((await this.#context.mayCompute?.(node)) === false)
      return failed(tell('call.later', { verb: node.verb }), node.place);
    if (this.#context.watch.cancelled()) return failed(tell('cancelled', {}), node.place);
    this.computed = true;
    const began = Date.now();
    const found = await this.#run(verb, node, given.value);
    if (this.#context.watch.cancelled()) return failed(tell('cancelled', {}), node.place);
    if (!found.ok) return { ok: false, failure: { ...found.failure, place: blamed(node, found.failure.at) } };
    const told =
      verb.passesFaults === true ? found : { ...found, warnings: [...found.warnings, ...faultsBehind(given.value)] };
    this.#context.cache.set(key, told);
    if (Date.now() - began > worthKeeping) this.#context.kept?.set(key, told);
    return this.#accept(told);
  }

  async #recalled(key: string): Promise<Answered | undefined> {
    const found = await this.#context.kept?.get(key);
    if (found !== undefined) this.#context.cache.set(key, found);
    return found;
  }

  /** An exception is a fault of ours, or of the machine: it is told as such, and ends its statement and not the notebook. */
  async #run(verb: Verb, node: Call, given: Arguments): Promise<Answer> {
    const { files, watch, digest } = this.#context;
    try {
      const history = await this.#historyFor(verb, node);
      return await verb.evaluate(given, { files, watch, digest, ...(history === undefined ? {} : { history }) });
    } catch (error) {
      return refuseFault(error, verb.form.verb);
    }
  }

  /** The history, for a verb that reads it, where there is one. */
  async #historyFor(verb: Verb, node: Call): Promise<Context['history']> {
    const { history, sourceOf } = this.#context;
    if (verb.readsHistory !== true || history === undefined || (await history.head()) === undefined) return undefined;
    return { of: history, source: sourceOf?.(node) };
  }

  /** A pipeline's steps may all have the same to say of a run: it is said once. */
  #accept({ value, warnings }: Answered): Evaluated<Value> {
    const said = new Set(this.warnings.map(({ message }) => message));
    for (const warning of warnings) if (!said.has(warning.message)) this.warnings.push(warning);
    return { ok: true, value };
  }

  async #argumentsOf(node: Call): Promise<Evaluated<Arguments>> {
    const operands = await this.#evaluateAll(node.operands);
    if (!operands.ok) return operands;
    const options = await this.#evaluateAll(node.options);
    if (!options.ok) return options;
    return { ok: true, value: { operands: operands.value, options: options.value } };
  }

  async #evaluateAll(given: CheckedArguments): Promise<Evaluated<Record<string, Argument[]>>> {
    const found: Record<string, Argument[]> = {};
    for (const [name, nodes] of Object.entries(given)) {
      found[name] = [];
      for (const node of nodes) {
        const argument = await this.#argument(node);
        if (!argument.ok) return argument;
        found[name].push(argument.value);
      }
    }
    return { ok: true, value: found };
  }

  async #argument(node: CheckedArgument): Promise<Evaluated<Argument>> {
    const literal = literalArgument(node);
    if (literal !== undefined) return { ok: true, value: literal };
    if (node.type === 'group') {
      const parts: Argument[] = [];
      for (const part of node.parts) {
        const found = await this.#argument(part);
        if (!found.ok) return found;
        parts.push(found.value);
      }
      return { ok: true, value: { type: 'group', parts } };
    }
    const found = await this.value(node);
    if (!found.ok) return found;
    if (found.value.kind === 'quantity') {
      const { quantity, parts } = found.value;
      const name = nameIn(node);
      const more = { ...(parts === undefined ? {} : { parts }), ...(name === undefined ? {} : { name }) };
      return { ok: true, value: { type: 'quantity', quantity, ...more } };
    }
    if (found.value.kind === 'text') return { ok: true, value: { type: 'text', text: found.value.text } };
    return { ok: true, value: { type: 'value', value: found.value, name: nameIn(node) } };
  }
}

/** An argument that needs no evaluation, or undefined. */
export function literalArgument(node: CheckedArgument): Argument | undefined {
  switch (node.type) {
    case 'quantity':
      return { type: 'quantity', quantity: node.quantity };
    case 'range':
      return { type: 'range', from: node.from, to: node.to };
    case 'text':
      return { type: 'text', text: node.text };
    case 'word':
      return node.text === undefined
        ? { type: 'word', word: node.word }
        : { type: 'word', word: node.word, text: node.text };
    case 'unit':
      return { type: 'unit', unit: node.unit };
    case 'group':
    case 'call':
    case 'name':
    case 'pick':
    case 'field':
    case 'function':
    case 'binary':
    case 'negative':
    case 'uncertain':
    case 'coverage':
    case 'convert':
      return undefined;
  }
}

/** The name by which a chart or a comparison would call this argument. */
function nameIn(node: Checked): string | undefined {
  if (node.type === 'name') return node.name;
  if (node.type === 'field') {
    const name = nameIn(node.of);
    return name === undefined ? undefined : `${name}.${node.field}`;
  }
  if (node.type === 'pick') {
    const name = nameIn(node.of);
    return name === undefined ? undefined : `${name}[${node.index}]`;
  }
  return undefined;
}

function blamed(node: Call, at: string | undefined): Place {
  const nodes = at === undefined ? undefined : (node.options[at] ?? node.operands[at]);
  if (nodes === undefined || nodes.length === 0) return node.place;
  return { from: nodes[0].place.from, to: nodes[nodes.length - 1].place.to };
}

function placed(found: Result<Value>, place: Place): Evaluated<Value> {
  return found.ok ? { ok: true, value: found.value } : { ok: false, failure: { ...found.failure, place } };
}

function failed(why: Message, place: Place): { ok: false; failure: PlacedFailure } {
  return { ok: false, failure: { ...why, place } };
}
