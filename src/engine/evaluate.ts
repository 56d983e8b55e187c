import type { Checked } from '../language/checked.ts';
import type { Place } from '../language/diagnostic.ts';
import { answered, type Warning } from '../result/result.ts';
import { allRunsOf, misses, withoutSamples, type Wanted } from '../values/away.ts';
import { fieldOf } from '../values/fields.ts';
import { inUnit } from '../values/inUnit.ts';
import { descriptionOf, namedBy } from '../values/kinds.ts';
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
import { isAnyAway, madeByRuns, needsSamples } from './parts/byRuns.ts';
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

  /** @param samples whose samples are to be read again where they are away; nobody's unless said */
  async value(node: Checked, samples?: Wanted): Promise<Evaluated<Value>> {
    switch (node.type) {
      case 'call':
        return this.#call(node, samples);
      case 'name': {
        const value = await this.#context.valueOf(node.name);
        if (value === undefined)
          return failed(tell('name.failed', { name: node.name, ...this.#context.boundAt?.(node.name) }), node.place);
        return misses(value, samples) ? this.#boundWithSamples(node.name, value, samples) : { ok: true, value };
      }
      case 'pick':
        return this.#pick(node, samples);
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
        return this.#convert(node, samples);
      case 'function':
        return this.#function(node);
      case 'range':
      case 'word':
      case 'unit':
        throw new Error(`a ${node.type} stands only as an argument`);
    }
  }

  /** Of what is picked alone the samples are read again. */
  async #pick(node: Extract<Checked, { type: 'pick' }>, samples: Wanted | undefined): Promise<Evaluated<Value>> {
    const picked = async (wanted?: Wanted): Promise<Evaluated<Value>> => {
      const of = await this.value(node.of, wanted);
      return of.ok ? placed(pickOf(of.value, node.index), node.place) : of;
    };
    const found = await picked();
    if (!found.ok || !misses(found.value, samples)) return found;
    const whole = await picked(new Set(allRunsOf(found.value).map(({ file }) => file.path)));
    // What is made of several files bears the name of one.
    return whole.ok && misses(whole.value, samples) ? picked(samples) : whole;
  }

  /** What an input is called that is stated at a place: by the name that it is bound to, so that uses of the name share it. */
  #input({ from }: Place): string {
    const { statement } = this.#context;
    const called = statement?.name?.text ?? `cell ${(statement?.cell ?? 0) + 1}, line ${statement?.line ?? 1}`;
    const at = from - (statement?.place.from ?? 0);
    return `${called} @${at}`;
  }

  /** What was told in another unit is kept as calls are: runs are long. */
  async #convert(node: Extract<Checked, { type: 'convert' }>, samples: Wanted | undefined): Promise<Evaluated<Value>> {
    const of = await this.value(node.of, samples);
    if (!of.ok) return of;
    if (of.value.kind === 'quantity') return placed(convertQuantity(of.value, node.unit), node.place);
    const key = await this.#context.keys.of(node);
    const known = this.#context.cache.get(key);
    if (known !== undefined && !misses(known.value, samples)) return this.#accept(known);
    const found = inUnit(of.value, node.unit);
    if (found.ok && known === undefined) this.#context.cache.set(key, answered(found.value));
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

  /** What is bound to a name, made again with the samples; what that tells was told where it was bound. */
  async #boundWithSamples(name: string, value: Value, samples: Wanted | undefined): Promise<Evaluated<Value>> {
    const bound = this.#context.boundTo(name);
    if (bound === undefined) return { ok: true, value };
    const found = await this.#inner().value(bound, samples);
    return found.ok ? { ok: true, value: namedBy(found.value, name) } : found;
  }

  async #call(node: Call, samples: Wanted | undefined): Promise<Evaluated<Value>> {
    const key = await this.#context.keys.of(node);
    const known = this.#context.cache.get(key) ?? (await this.#recalled(key));
    if (known !== undefined && !misses(known.value, samples)) return this.#accept(known);
    const verb = verbNamed(node.verb);
    if (verb === undefined) throw new Error(`there is no verb ${node.verb}`);
    const chain = await chainOf(node, { context: this.#context, inner: () => this.#inner() });
    if (chain !== undefined) return this.#joined(key, chain, samples);
    const inner = this.#inner();
    const made = await this.#made(verb, node, { key, inner, samples });
    this.computed ||= inner.computed;
    if (made.ok) return this.#accept(made);
    this.#tell(inner.warnings);
    return made;
  }

  /** What a call gives that looks at all of its operands at once, with what they told, as it is kept. */
  async #made(
    verb: Verb,
    node: Call,
    { key, inner, samples }: { readonly key: string; readonly inner: Evaluator; readonly samples: Wanted | undefined },
  ): Promise<Answered | { readonly ok: false; readonly failure: PlacedFailure }> {
    // What looks at samples looks at all, wherever these come from.
    const wanted = samples !== undefined && needsSamples(verb) ? 'all' : samples;
    let given = await argumentsOf(node, (part) => inner.value(part, wanted));
    if (!given.ok) return given;
    const unfit = firstUnfit(verb.form, node, given.value);
    if (unfit !== undefined) return { ok: false, failure: unfit };
    if ((await this.#context.mayCompute?.(node)) === false)
      return failed(tell('call.later', { verb: node.verb }), node.place);
    if (this.#context.watch.cancelled()) return failed(tell('cancelled', {}), node.place);
    this.computed = true;
    const began = performance.now();
    const ofRuns = await this.#ofRuns(verb, node, given.value);
    if (ofRuns === undefined && needsSamples(verb) && isAnyAway(given.value)) {
      given = await argumentsOf(node, (part) => inner.value(part, 'all'));
      if (!given.ok) return given;
    }
    const found = await this.#run(verb, node, given.value, ofRuns);
    if (this.#context.watch.cancelled()) return failed(tell('cancelled', {}), node.place);
    if (!found.ok) return { ok: false, failure: { ...found.failure, place: blamed(node, found.failure.at) } };
    const faults = verb.passesFaults === true ? [] : faultsBehind(given.value);
    const below = withoutLeftOut(inner.warnings, leftOutBy(given.value, found.value));
    const answer = answered(found.value, [...below, ...found.warnings, ...faults]);
    const away = (): Answered => ({ ...answer, value: withoutSamples(answer.value) });
    const settled = allRunsOf(answer.value).every((run) => this.#context.cache.holds(run)) ? answer : away();
    this.#context.cache.set(key, settled);
    if (performance.now() - began > worthKeeping || ofRuns !== undefined) this.#context.kept?.set(key, away());
    return samples === undefined ? settled : answer;
  }

  /** What is made by itself of each run that a call is given without samples, where it can do with that; undefined where it can't. */
  async #ofRuns(verb: Verb, node: Call, given: Arguments): Promise<Context['ofRuns']> {
    // Shares keep the samples, and nothing for one call.
    const isShared = this.#context.sharing !== undefined;
    const by = !isShared && isAnyAway(given) ? verb.byRuns?.(given) : undefined;
    return by && madeByRuns(node, given, by, { context: this.#context, inner: () => this.#inner() });
  }

  /** The value of a set whose runs go through their steps one by one. */
  async #joined(key: string, chain: Chain, samples: Wanted | undefined): Promise<Evaluated<Value>> {
    const found = await madeOf(chain, this.#context, samples === undefined ? {} : { samples });
    this.computed ||= found.computed || chain.computed;
    if (!found.ok) {
      this.#tell(found.warnings);
      return { ok: false, failure: found.failure };
    }
    const answer = answered(found.value, found.warnings);
    // Samples that were read again are for whoever asked for them, and go with the answer.
    if (samples === undefined) this.#context.cache.set(key, answer);
    return this.#accept(answer);
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
  async #run(verb: Verb, node: Call, given: Arguments, ofRuns: Context['ofRuns']): Promise<Answer> {
    const { files, watch, digest } = this.#context;
    try {
      const history = await this.#historyFor(verb, node);
      const more = { ...(history && { history }), ...(ofRuns && { ofRuns }) };
      return await verb.evaluate(given, { files, watch, digest, ...more });
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
