import { panelLimit, panelsTaken } from '../../charts/drawnRuns.ts';
import type { Checked, CheckedArgument } from '../../language/checked.ts';
import { callsIn } from '../../language/services/calls.ts';
import { partsOf } from '../../language/partsOf.ts';
import { verbNamed } from '../../verbs/catalogue.ts';
import type { ListedRecording } from '../../verbs/each.ts';
import type { Verb } from '../../verbs/verb.ts';
import { argumentsOf, literalArgument } from '../arguments.ts';
import type { AtHand, Call, EvaluationContext } from '../evaluation.ts';
import {
  chainTo,
  isExpression,
  keysAlong,
  listing,
  runsOperand,
  withOwnSteps,
  type Asking,
  type Chain,
} from './chain.ts';
import { Making } from './making.ts';
import { isPartAway, runsIn } from './part.ts';

/** What is made of recordings as they are read. */
interface Asked {
  /** The expressions that are going to be evaluated. */
  readonly expressions: () => readonly Checked[];
  /** Those of them whose values are drawn. */
  readonly drawn: () => readonly Checked[];
  /** Whether a recording was read just now, and nobody has taken it yet. */
  readonly isAtHand: (recording: ListedRecording) => boolean;
  /** Is told the key of what was made. */
  readonly made: (key: string) => void;
}

/**
 * Takes each recording, while its samples are at hand, through all that the expressions ask of it by itself, so that
 * it is read once and its samples may go. What fails here is told where it is asked for.
 */
export class Ahead {
  readonly #asking: Asking;
  readonly #asked: Asked;
  /** By the call that lists recordings the chains that go on from it. */
  readonly #ends = new Map<Checked, Promise<readonly Chain[]>>();
  /** Likewise the pictures that draw its recordings by their samples. */
  readonly #pictures = new Map<Checked, Promise<readonly Picture[]>>();

  constructor({ context, ...rest }: Asking, asked: Asked) {
    this.#asking = { ...rest, context: { ...context, isBound: () => true } };
    this.#asked = asked;
  }

  /** Each recording of a call, as soon as it was read. */
  async all(load: Call): Promise<void> {
    const verb = verbNamed(load.verb);
    if (verb?.lists === undefined) return;
    await listing(load, verb, false, this.#asking, async ({ set }, source) => {
      const { key, recording } = source;
      if (key === undefined || recording === undefined || !this.#asked.isAtHand(recording)) return;
      await this.#make({ source, load, set, lent: new Map() }, false);
    });
  }

  /** One that was read for something else. */
  async beside(recording: AtHand): Promise<void> {
    const { load } = recording;
    if (load.type === 'call' && verbNamed(load.verb)?.lists !== undefined) await this.#make(recording, true);
  }

  async #make(recording: AtHand, mayBeKept: boolean): Promise<void> {
    const { source, load, set, lent } = recording;
    const base = { node: load, recordings: [], lost: [], isOwn: false, before: [], after: [] };
    const from: Chain = { base, steps: [], set, computed: false };
    const ends = once(this.#ends, load, () => endsOf(load, this.#asked.expressions(), { ...this.#asking, from }));
    const before = new Set(lent.keys());
    for (const chain of await ends) {
      const alone = { ...chain, base: { ...chain.base, recordings: [source] } };
      await new Making(alone, this.#asking.context, { lent, mayBeKept }).all();
    }
    for (const key of lent.keys()) if (!before.has(key)) this.#asked.made(key);
    const pictures = once(this.#pictures, load, () => picturesOf(load, this.#asked.drawn(), { ...this.#asking, from }));
    this.#hold(recording, await pictures);
  }

  /** Holds the samples of a recording that are going to be drawn, as far as a picture has panels for them. */
  #hold({ source, lent }: AtHand, pictures: readonly Picture[]): void {
    const { held, cache, digest } = this.#asking.context;
    if (held === undefined || source.key === undefined) return;
    for (const picture of pictures)
      for (const chain of picture.chains) {
        const [key] = keysAlong(chain, source.key, digest).slice(-1);
        const part = lent.get(key);
        if (part?.value === undefined || isPartAway(part) || runsIn(part).every((run) => cache.holds(run))) continue;
        const panels = panelsTaken(part.value);
        if (panels === 0 || picture.panels >= panelLimit) continue;
        picture.panels += panels;
        held.hold(key, part);
      }
  }
}

type From = Asking & { readonly from: Chain };

/** The chains from a `load` that no other goes on from; of a load that nobody goes on from its recordings as they are. */
async function endsOf(load: Checked, expressions: readonly Checked[], asking: From): Promise<readonly Chain[]> {
  const found: Chain[] = [asking.from];
  const ties = new Ties(load, asking.context);
  for (const call of expressions.flatMap(callsIn)) {
    const verb = verbNamed(call.verb);
    if (verb?.each !== undefined && (await ties.leads(call))) add(found, await chainTo(call, asking));
    if (verb?.byRuns !== undefined) for (const chain of await ownChains(call, verb, ties, asking)) add(found, chain);
  }
  return found.filter((one) => !found.some((other) => other !== one && goesOnFrom(one, other)));
}

/** A picture that draws by samples what chains end with, and the panels that are taken in it. */
interface Picture {
  readonly chains: readonly Chain[];
  panels: number;
}

/** The pictures among drawn expressions that recordings of a `load` stand in: of runs that are plotted, and of findings. */
async function picturesOf(load: Checked, drawn: readonly Checked[], asking: From): Promise<readonly Picture[]> {
  const ties = new Ties(load, asking.context);
  const found: Picture[] = [];
  for (const expression of drawn) {
    const isPlot = expression.type === 'call' && verbNamed(expression.verb)?.form.gives === 'chart';
    const chains: Chain[] = [];
    for (const node of isPlot ? Object.values(expression.operands).flat() : [expression]) {
      if (!isExpression(node) || !(await ties.leads(node))) continue;
      const chain = await chainTo(node, asking);
      const isDrawn = chain?.obstacle === undefined && (isPlot || chain?.steps.at(-1)?.verb.form.gives === 'findings');
      if (chain !== undefined && isDrawn) chains.push(chain);
    }
    if (chains.length > 0) found.push({ chains, panels: 0 });
  }
  return found;
}

/** A chain that ends where another does is taken once. */
function add(found: Chain[], chain: Chain | undefined): void {
  const { steps = [] } = chain ?? {};
  const isNew = found.every((one) => one.steps.length !== steps.length || !isBeginOf(one, steps));
  if (chain !== undefined && isNew) found.push(chain);
}

const goesOnFrom = (one: Chain, { steps }: Chain): boolean => one.steps.length < steps.length && isBeginOf(one, steps);

const isBeginOf = ({ steps }: Chain, of: Chain['steps']): boolean => steps.every(({ key }, at) => key === of[at].key);

/** The chains of the sets in a call that can do with what is made of each run by itself. */
async function ownChains(call: Call, verb: Verb, ties: Ties, asking: From): Promise<readonly Chain[]> {
  const options = Object.fromEntries(Object.entries(call.options).filter(([keyword]) => !takesRuns(verb, keyword)));
  const own: Call = { ...call, operands: {}, options };
  if (!(await ties.isSettled(own))) return [];
  const inner = asking.inner();
  const given = await argumentsOf(own, (part) => inner.value(part));
  const by = given.ok ? verb.byRuns?.(given.value) : undefined;
  if (by === undefined) return [];
  const found: Chain[] = [];
  for (const [slot, nodes] of [...Object.entries(call.operands), ...Object.entries(call.options)])
    for (const node of nodes) {
      if (!isExpression(node) || !(await ties.leads(node))) continue;
      const chain = await chainTo(node, asking);
      if (chain !== undefined && chain.obstacle === undefined && givesRuns(chain))
        found.push(withOwnSteps(chain, call, (through) => by(slot, through), asking.context));
    }
  return found;
}

const givesRuns = ({ steps }: Chain): boolean => (steps.at(-1)?.verb.form.gives ?? 'runs') === 'runs';

/** Whether runs, or what is made of them, may stand in an option. */
const takesRuns = ({ form }: Verb, keyword: string): boolean =>
  form.options.some(
    (option) =>
      option.keyword === keyword &&
      option.accepts.some((accept) => accept.type === 'value' && accept.kinds.includes('runs')),
  );

/** Tells by the text how expressions hang together, looking at each once. */
class Ties {
  readonly #load: Checked;
  readonly #context: EvaluationContext;
  readonly #leading = new Map<CheckedArgument, Promise<boolean>>();
  readonly #settled = new Map<CheckedArgument, Promise<boolean>>();

  constructor(load: Checked, context: EvaluationContext) {
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
