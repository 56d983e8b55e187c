import type { Checked } from '../language/checked.ts';
import type { Place } from '../language/diagnostic.ts';
import { answered, type Warning } from '../result/result.ts';
import { fieldOf } from '../values/fields.ts';
import { inUnit } from '../values/inUnit.ts';
import { descriptionOf } from '../values/kinds.ts';
import { pickOf } from '../values/pick.ts';
import type { QuantityValue } from '../values/quantity.ts';
import type { Value } from '../values/value.ts';
import { arithmetic, convertQuantity, covered, negate, uncertain } from '../verbs/arithmetic.ts';
import { verbNamed } from '../verbs/catalogue.ts';
import { withoutLeftOut } from '../verbs/each.ts';
import { evaluateFunction, functionNamed } from '../verbs/functions.ts';
import {
  faultsBehind,
  leftOutBy,
  type Answer,
  type Answered,
  type Arguments,
  type Context,
  type Verb,
} from '../verbs/verb.ts';
import { argumentsOf } from './arguments.ts';
import {
  blamed,
  failed,
  placed,
  type Call,
  type Evaluated,
  type EvaluationContext,
  type PlacedFailure,
} from './evaluation.ts';
import { firstUnfit, firstUnfitParameter } from './hold.ts';
import { refuseFault, tell } from './messages.ts';
import { chainOf, type Chain } from './parts/chain.ts';
import { madeOf } from './parts/made.ts';

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
        const value = await this.#context.valueOf(node.name);
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
    const chain = await chainOf(node, { context: this.#context, inner: () => this.#inner() });
    if (chain !== undefined) return this.#joined(key, chain);
    const inner = this.#inner();
    const made = await this.#made(verb, node, { key, inner });
    this.computed ||= inner.computed;
    if (made.ok) return this.#accept(made);
    this.#tell(inner.warnings);
    return made;
  }

  /** What a call gives that looks at all of its operands at once, with what they told, as it is kept. */
  async #made(
    verb: Verb,
    node: Call,
    { key, inner }: { readonly key: string; readonly inner: Evaluator },
  ): Promise<Answered | { readonly ok: false; readonly failure: PlacedFailure }> {
    const given = await argumentsOf(node, (part) => inner.value(part));
    if (!given.ok) return given;
    const unfit = firstUnfit(verb.form, node, given.value);
    if (unfit !== undefined) return { ok: false, failure: unfit };
    if ((await this.#context.mayCompute?.(node)) === false)
      return failed(tell('call.later', { verb: node.verb }), node.place);
    if (this.#context.watch.cancelled()) return failed(tell('cancelled', {}), node.place);
    this.computed = true;
    const began = performance.now();
    const found = await this.#run(verb, node, given.value);
    if (this.#context.watch.cancelled()) return failed(tell('cancelled', {}), node.place);
    if (!found.ok) return { ok: false, failure: { ...found.failure, place: blamed(node, found.failure.at) } };
    const faults = verb.passesFaults === true ? [] : faultsBehind(given.value);
    const below = withoutLeftOut(inner.warnings, leftOutBy(given.value, found.value));
    const told = answered(found.value, [...below, ...found.warnings, ...faults]);
    this.#context.cache.set(key, told);
    if (performance.now() - began > worthKeeping) this.#context.kept?.set(key, told);
    return told;
  }

  /** The value of a set whose runs go through their steps one by one. */
  async #joined(key: string, chain: Chain): Promise<Evaluated<Value>> {
    const found = await madeOf(chain, this.#context);
    this.computed ||= found.computed || chain.computed;
    if (!found.ok) {
      this.#tell(found.warnings);
      return { ok: false, failure: found.failure };
    }
    const told = answered(found.value, found.warnings);
    this.#context.cache.set(key, told);
    return this.#accept(told);
  }

  /** An evaluator of a part of the expression, which gathers what that part tells by itself. */
  #inner(): Evaluator {
    return new Evaluator(this.#context);
  }

  async #recalled(key: string): Promise<Answered | undefined> {
    const found = await this.#context.kept?.get<Answered>(key);
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

  #accept({ value, warnings }: Answered): Evaluated<Value> {
    this.#tell(warnings);
    return { ok: true, value };
  }

  /** A pipeline's steps may all have the same to say of a run: it is said once. */
  #tell(warnings: readonly Warning[]): void {
    const said = new Set(this.warnings.map(({ message }) => message));
    for (const warning of warnings)
      if (!said.has(warning.message)) {
        said.add(warning.message);
        this.warnings.push(warning);
      }
  }
}
