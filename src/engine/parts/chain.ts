import type { Checked } from '../../language/checked.ts';
import type { Warning } from '../../result/result.ts';
import type { Wanted } from '../../values/away.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import type { Value } from '../../values/value.ts';
import { verbNamed } from '../../verbs/catalogue.ts';
import type { ListedRecording } from '../../verbs/each.ts';
import type { Arguments, OwnStep, Verb } from '../../verbs/verb.ts';
import { argumentsOf } from '../arguments.ts';
import { blamed, type Call, type Evaluated, type EvaluationContext, type PlacedFailure } from '../evaluation.ts';
import { firstUnfit } from '../hold.ts';
import { refuseFault } from '../messages.ts';
import { toldNothing, type Part, type Source } from './part.ts';

/** The steps that the recordings of a set go through one by one, and where they come from. */
export interface Chain {
  readonly base: Base;
  readonly steps: readonly Step[];
  /** What the set is called after the last step. */
  readonly set: string | undefined;
  /** Why there is no further step, told once these have been taken. */
  readonly obstacle?: PlacedFailure;
  /** What the arguments of the step that can't be taken told. */
  readonly beside?: readonly Warning[];
  /** Whether an argument of a step was computed. */
  readonly computed: boolean;
}

/** Where the recordings of a chain come from. */
export interface Base {
  /** The call that lists them, or what their set was made by. */
  readonly node: Checked;
  readonly recordings: readonly Source[];
  /** Runs that a sheet leaves out and whose recording is not there. */
  readonly lost: readonly ExcludedRun[];
  /** Whether it stands in the expression itself, not behind a name. */
  readonly isOwn: boolean;
  /** Told before and after what the recordings tell. */
  readonly before: readonly Warning[];
  readonly after: readonly Warning[];
}

/** A call that goes over runs one by one. */
export interface Step {
  readonly node: Call;
  readonly verb: Verb;
  readonly isOwn: boolean;
  /** The content key of what it does. */
  readonly key: string;
  /** Its arguments but for the runs. */
  readonly given: Arguments;
  /** What its arguments told when they were evaluated. */
  readonly warnings: readonly Warning[];
  /** What the set is called that it goes over. */
  readonly set: string | undefined;
}

/** Evaluates parts of an expression apart from what is told of the rest. */
interface Inner {
  readonly warnings: readonly Warning[];
  readonly computed: boolean;
  value(node: Checked, samples?: Wanted): Promise<Evaluated<Value>>;
}

export interface Asking {
  readonly context: EvaluationContext;
  readonly inner: () => Inner;
  /** Where given, chains are followed down to these recordings alone. */
  readonly from?: Chain;
}

/** Steps beyond which a set is taken as it was made by a name: a chain of names need not be followed for ever. */
const mostSteps = 32;

/** The operand of the verbs that go over runs one by one. */
export const runsOperand = 'runs';

/** The chain of a set of runs, wherever it comes from; undefined where nobody can tell how it is made. */
export async function chainTo(node: Checked, asking: Asking): Promise<Chain | undefined> {
  return (await followed(node, false, asking)) ?? (await atHand(node, false, asking));
}

/**
 * The chain that a call ends, followed through names to what lists the recordings, or to a set that is at hand;
 * undefined of a call that looks at all runs at once.
 */
export async function chainOf(node: Call, asking: Asking): Promise<Chain | undefined> {
  return followed(node, true, asking);
}

async function followed(node: Checked, isOwn: boolean, asking: Asking): Promise<Chain | undefined> {
  if (node.type === 'name') {
    const { isBound, boundTo } = asking.context;
    const bound = boundTo(node.name);
    if (!isBound(node.name) || bound === undefined) return undefined;
    // A turn later: a long chain of names would exhaust the stack.
    await Promise.resolve();
    const chain = await followed(bound, false, asking);
    // What has no label of its own is called by the name.
    return chain && { ...chain, set: chain.set ?? node.name };
  }
  if (node.type === 'pick') return picked(node, asking);
  if (node.type !== 'call') return undefined;
  const verb = verbNamed(node.verb);
  if (verb?.lists !== undefined) {
    const { from } = asking;
    return from === undefined ? listing(node, verb, isOwn, asking) : from.base.node === node ? from : undefined;
  }
  if (verb?.each === undefined) return undefined;
  const [runs] = node.operands[runsOperand];
  if (!isExpression(runs)) return undefined;
  const below = (await followed(runs, isOwn, asking)) ?? (await atHand(runs, isOwn, asking));
  if (below === undefined || below.obstacle !== undefined) return below;
  const last = below.steps.at(-1);
  if (last !== undefined && last.verb.form.gives !== 'runs') return undefined;
  if (!isOwn && below.steps.length >= mostSteps) return undefined;
  return withStep(below, node, verb, { isOwn, asking });
}

/** The chain of one recording of a set that is bound to a name, and known to have come off as a whole. */
async function picked({ of, index }: Extract<Checked, { type: 'pick' }>, asking: Asking): Promise<Chain | undefined> {
  const { context, from } = asking;
  // Shares keep what a pick is made of, and nothing of the pick.
  if (of.type !== 'name' || context.sharing !== undefined || from !== undefined) return undefined;
  const chain = await followed(of, false, asking);
  const value = await context.valueOf(of.name);
  if (chain === undefined || chain.obstacle !== undefined || value?.kind !== 'runs') return undefined;
  const { recordings } = chain.base;
  const runs = recordings.filter(({ recording, part }) => recording?.isExcluded !== true && !part?.excluded);
  const one = index < 1 || runs.length !== value.runs.length ? undefined : runs.at(index - 1);
  return one && { ...chain, base: { ...chain.base, recordings: [one], lost: [] }, set: undefined };
}

/** Words, ranges, units and groups stand only as arguments. */
export function isExpression(node: Call['operands'][string][number]): node is Checked {
  return node.type !== 'group';
}

async function withStep(
  below: Chain,
  node: Call,
  verb: Verb,
  { isOwn, asking }: { readonly isOwn: boolean; readonly asking: Asking },
): Promise<Chain> {
  const inner = asking.inner();
  const given = await argumentsOf(node, (part) => inner.value(part, 'all'), runsOperand);
  const computed = below.computed || inner.computed;
  if (!given.ok) return { ...below, computed, obstacle: given.failure, beside: isOwn ? inner.warnings : [] };
  const unfit = firstUnfit(verb.form, node, given.value);
  if (unfit !== undefined) return { ...below, computed, obstacle: unfit, beside: isOwn ? inner.warnings : [] };
  const { set } = below;
  const key = await asking.context.keys.ofStep(node, [runsOperand]);
  const step = { node, verb, isOwn, key, given: given.value, warnings: inner.warnings, set };
  return { ...below, computed, steps: [...below.steps, step] };
}

/** The content keys of a recording of a chain: as it was read, and after each step. @param first the key of the recording */
export function keysAlong({ steps }: Chain, first: string, digest: EvaluationContext['digest']): string[] {
  const keys = [first];
  for (const step of steps) keys.push(digest(`${step.key} ${keys[keys.length - 1]}`));
  return keys;
}

/** A chain with the steps that a call takes each of its runs through. @param by how they are told for a slot of the call */
export function withOwnSteps(
  chain: Chain,
  node: Call,
  by: (through: readonly string[]) => readonly OwnStep[],
  { digest }: Pick<EvaluationContext, 'digest'>,
): Chain {
  const { set, steps } = chain;
  const given: Arguments = { operands: {}, options: {} };
  const own = by(steps.map(({ verb }) => verb.form.verb)).map(({ by: how, verb }): Step => ({
    ...{ node, verb, isOwn: false, given, warnings: [], set },
    key: digest(JSON.stringify(how)),
  }));
  return { ...chain, steps: [...steps, ...own] };
}

/**
 * The recordings that a call lists.
 * @param arrived is told of each as soon as its file is known, and waited for
 */
export async function listing(
  node: Call,
  verb: Verb,
  isOwn: boolean,
  { context, inner }: Asking,
  arrived?: (chain: Chain, source: Source) => Promise<void>,
): Promise<Chain> {
  const evaluator = inner();
  const given = await argumentsOf(node, (part) => evaluator.value(part));
  const base: Base = { node, recordings: [], lost: [], isOwn, before: evaluator.warnings, after: [] };
  const none = { base, steps: [], set: undefined, computed: evaluator.computed, beside: evaluator.warnings };
  if (!given.ok) return { ...none, obstacle: given.failure };
  const unfit = firstUnfit(verb.form, node, given.value);
  if (unfit !== undefined) return { ...none, obstacle: unfit };
  const found = await verb.lists!(given.value, context.files).catch((error: unknown) =>
    refuseFault(error, verb.form.verb),
  );
  if (!found.ok) return { ...none, obstacle: { ...found.failure, place: blamed(node, found.failure.at) } };
  const { set, recordings, lost, before, after } = found.value;
  const how = await context.keys.ofStep(node, verb.choosing ?? []);
  const { sharing, files, watch } = context;
  const isWorkedOn = ({ wanted }: ListedRecording): boolean => sharing?.part !== 'share' || sharing.isOwn(wanted.path);
  if (sharing?.part === 'share')
    await files.ahead?.(
      recordings.filter(isWorkedOn).map(({ wanted }) => wanted),
      watch,
    );
  const warnings = [...evaluator.warnings, ...before];
  const empty: Base = { node, recordings: [], lost, isOwn, before: warnings, after };
  const chain: Chain = { base: empty, steps: [], set, computed: evaluator.computed };
  const sources = recordings.map(async (one): Promise<Source> => {
    if (!isWorkedOn(one)) return { key: undefined, bytes: 0 };
    const source = await sourceOf(one, how, context);
    await arrived?.(chain, source);
    return source;
  });
  return { ...chain, base: { ...empty, recordings: await Promise.all(sources) } };
}

/** @param how the content key of how recordings are read */
async function sourceOf(
  recording: ListedRecording,
  how: string,
  { files, digest }: EvaluationContext,
): Promise<Source> {
  // Why a file can't be identified is told by its reading.
  const identity = await files.identify(recording.wanted.path).catch(() => undefined);
  const { key, isExcluded } = recording;
  return {
    key: identity && digest(JSON.stringify([how, key, isExcluded, identity.sha256])),
    bytes: identity?.bytes ?? 0,
    recording,
  };
}

/** The runs of a set that was made otherwise; of a share those alone count that are read from files. */
async function atHand(node: Checked, isOwn: boolean, { context, inner, from }: Asking): Promise<Chain | undefined> {
  if (context.sharing?.part === 'share' || from !== undefined) return undefined;
  const evaluator = inner();
  const found = await evaluator.value(node, 'all');
  const { warnings: before, computed } = evaluator;
  if (!found.ok) {
    const base = { node, recordings: [], lost: [], isOwn, before: [], after: [] };
    return { base, steps: [], set: undefined, computed, obstacle: found.failure, beside: isOwn ? before : [] };
  }
  const { value } = found;
  if (value.kind !== 'runs' || value.runs.length === 0) return undefined;
  const key = await context.keys.of(node);
  const { set, runs, excluded = [] } = value;
  const parts: Part[] = [
    ...runs.map((run) => ({ value: { kind: 'runs', set, runs: [run] } as const, told: [toldNothing] })),
    ...excluded.map((one) => ({ excluded: one, told: [toldNothing] })),
  ];
  const recordings = parts.map((part, at) => ({ key: context.digest(JSON.stringify([key, at])), bytes: 0, part }));
  return { base: { node, recordings, lost: [], isOwn, before, after: [] }, steps: [], set, computed };
}
