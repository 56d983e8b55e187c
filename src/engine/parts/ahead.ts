import type { Checked, CheckedArgument } from '../../language/checked.ts';
import { callsIn } from '../../language/services/calls.ts';
import { partsOf } from '../../language/partsOf.ts';
import { verbNamed } from '../../verbs/catalogue.ts';
import type { ListedRecording } from '../../verbs/each.ts';
import type { Verb } from '../../verbs/verb.ts';
import { argumentsOf, literalArgument } from '../arguments.ts';
import type { Call, EvaluationContext } from '../evaluation.ts';
import { chainTo, isExpression, listing, runsOperand, withDensities, type Asking, type Chain } from './chain.ts';
import { Making } from './making.ts';
import type { Part } from './part.ts';

/** What is made of recordings as they are read. */
export interface Ahead {
  /** The expressions that are going to be evaluated. */
  readonly expressions: readonly Checked[];
  /** Whether a recording was read just now, and nobody has taken it yet. */
  readonly isAtHand: (recording: ListedRecording) => boolean;
  /** Is told the key of what was made. */
  readonly made: (key: string) => void;
}

/**
 * Takes each recording of a `load`, as soon as it was read, through all that the expressions ask of it by itself, so that
 * it is read once and its samples may go. What fails here is told where it is asked for.
 */
export async function makeAhead(load: Call, asking: Asking, { expressions, isAtHand, made }: Ahead): Promise<void> {
  const verb = verbNamed(load.verb);
  if (verb?.lists === undefined) return;
  const context: EvaluationContext = { ...asking.context, isBound: () => true };
  let ends: Promise<readonly Chain[]> | undefined;
  await listing(load, verb, false, { ...asking, context }, async (from, source) => {
    if (source.key === undefined || source.recording === undefined || !isAtHand(source.recording)) return;
    ends ??= endsOf(load, expressions, { ...asking, context, from });
    const lent = new Map<string, Part>();
    for (const chain of await ends) {
      const alone = { ...chain, base: { ...chain.base, recordings: [source] } };
      await new Making(alone, context, { lent }).all();
    }
    for (const key of lent.keys()) made(key);
  });
}

type From = Asking & { readonly from: Chain };

/** The chains from a `load` that no other goes on from; of a load that nobody goes on from its recordings as they are. */
async function endsOf(load: Call, expressions: readonly Checked[], asking: From): Promise<readonly Chain[]> {
  const found: Chain[] = [asking.from];
  const ties = new Ties(load, asking.context);
  for (const call of expressions.flatMap(callsIn)) {
    const verb = verbNamed(call.verb);
    if (verb?.each !== undefined && (await ties.leads(call))) add(found, await chainTo(call, asking));
    if (verb?.densitiesBy !== undefined)
      for (const chain of await densityChains(call, verb, ties, asking)) add(found, chain);
  }
  return found.filter((one) => !found.some((other) => other !== one && goesOnFrom(one, other)));
}

/** A chain that ends where another does is taken once. */
function add(found: Chain[], chain: Chain | undefined): void {
  const { steps = [] } = chain ?? {};
  const isNew = found.every((one) => one.steps.length !== steps.length || !isBeginOf(one, steps));
  if (chain !== undefined && isNew) found.push(chain);
}

const goesOnFrom = (one: Chain, { steps }: Chain): boolean => one.steps.length < steps.length && isBeginOf(one, steps);

const isBeginOf = ({ steps }: Chain, of: Chain['steps']): boolean => steps.every(({ key }, at) => key === of[at].key);

/** The chains of the sets in a call that can do with their densities. */
async function densityChains(call: Call, verb: Verb, ties: Ties, asking: From): Promise<readonly Chain[]> {
  const options = Object.fromEntries(
    Object.entries(call.options).filter(
      ([, nodes]) => !nodes.some((node) => node.type !== 'group' && isSet(node, asking)),
    ),
  );
  const own: Call = { ...call, operands: {}, options };
  if (!(await ties.isSettled(own))) return [];
  const inner = asking.inner();
  const given = await argumentsOf(own, (part) => inner.value(part));
  const window = given.ok ? verb.densitiesBy?.(given.value) : undefined;
  if (window === undefined) return [];
  const found: Chain[] = [];
  for (const node of [...Object.values(call.operands), ...Object.values(call.options)].flat()) {
    if (!isExpression(node) || !(await ties.leads(node))) continue;
    const chain = await chainTo(node, asking);
    if (chain !== undefined && chain.obstacle === undefined && givesRuns(chain))
      found.push(withDensities(chain, call, window, asking.context));
  }
  return found;
}

const givesRuns = ({ steps }: Chain): boolean => (steps.at(-1)?.verb.form.gives ?? 'runs') === 'runs';

/** Whether an expression is a set of runs as far as its text tells. */
function isSet(node: Checked, { context }: Asking): boolean {
  const bound = node.type === 'name' ? context.boundTo(node.name) : node;
  return bound?.type === 'call' && verbNamed(bound.verb)?.form.gives === 'runs';
}

/** Tells by the text how expressions hang together, looking at each once. */
class Ties {
  readonly #load: Call;
  readonly #context: EvaluationContext;
  readonly #leading = new Map<CheckedArgument, Promise<boolean>>();
  readonly #settled = new Map<CheckedArgument, Promise<boolean>>();

  constructor(load: Call, context: EvaluationContext) {
    this.#load = load;
    this.#context = context;
  }

  /** Whether the runs of an expression come from the `load`, by steps whose arguments are known already. */
  leads(node: CheckedArgument): Promise<boolean> {
    return once(this.#leading, node, () => this.#leads(node));
  }

  /** Whether an argument is literal, or a value that is known and rests on no file: others wait for the files' hashes. */
  isSettled(node: CheckedArgument): Promise<boolean> {
    return once(this.#settled, node, () => this.#isSettled(node));
  }

  async #leads(node: CheckedArgument): Promise<boolean> {
    // A turn later: a long chain of names would exhaust the stack.
    await Promise.resolve();
    if (node === this.#load) return true;
    if (node.type === 'name') {
      const bound = this.#context.boundTo(node.name);
      return bound !== undefined && this.leads(bound);
    }
    if (node.type !== 'call' || verbNamed(node.verb)?.each === undefined) return false;
    const { [runsOperand]: runs, ...operands } = node.operands;
    return (await this.leads(runs[0])) && this.#areSettled(partsOf({ ...node, operands }));
  }

  async #isSettled(node: CheckedArgument): Promise<boolean> {
    await Promise.resolve();
    if (literalArgument(node) !== undefined) return true;
    if (node.type === 'call' && verbNamed(node.verb)?.sources !== undefined) return false;
    if (node.type !== 'name') return this.#areSettled(partsOf(node));
    const bound = this.#context.boundTo(node.name);
    return bound !== undefined && (await this.#context.valueOf(node.name)) !== undefined && this.isSettled(bound);
  }

  async #areSettled(nodes: readonly CheckedArgument[]): Promise<boolean> {
    for (const node of nodes) if (!(await this.isSettled(node))) return false;
    return true;
  }
}

function once<K, V>(known: Map<K, V>, key: K, make: () => V): V {
  let found = known.get(key);
  if (found === undefined) known.set(key, (found = make()));
  return found;
}
