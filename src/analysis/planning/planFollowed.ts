import type { Message, Warning } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import type { PlanFollowed, PlannedAdjustment, PlanValue, Settled } from '../../values/plan.ts';
import { deviation, tell } from '../messages/planning.ts';

/** What was done, in the terms in which a plan settles it. */
export interface Done {
  readonly metric: string;
  readonly channel: string;
  readonly primary: Band | undefined;
  readonly bands: readonly Band[];
  /** Fractions. */
  readonly margin: number | undefined;
  readonly confidence: number;
  readonly method: string;
  /** What the baseline and the conditions held against it are called. */
  readonly names: readonly string[];
  /** How many runs each of them has: one list, or one a stratum. */
  readonly counts: readonly (readonly number[])[];
  /** As letters, where it is known: `ABBABAAB`. */
  readonly order: string | undefined;
  readonly includesExcluded: boolean;
  readonly within: readonly string[];
  readonly adjust: readonly PlannedAdjustment[];
  readonly isAllPairs: boolean;
}

/** Whether two bands have the same edges, to rounding. */
export const sameBand = (one: Band, other: Band): boolean =>
  Math.abs(one.from - other.from) <= 1e-9 * other.to && Math.abs(one.to - other.to) <= 1e-9 * other.to;

/** The bands that a plan names, and why no verdict may rest on this level where it is another than was planned. */
export function plannedFor(
  { settled }: Pick<PlanValue, 'settled'>,
  done: Pick<Done, 'metric' | 'channel'>,
): Required<Pick<PlanFollowed, 'bands' | 'unplanned'>> {
  if (settled === undefined) return { bands: [], unplanned: [] };
  return { bands: plannedBands(settled), unplanned: levelDeviations(settled, done) };
}

/** How what was done stands to the plan of this name: what it claims, its bands, and each point that is otherwise. */
export function planFollowed(name: string, { hash, settled }: PlanValue, done: Done): PlanFollowed {
  if (settled === undefined) return { name, hash, question: '', bands: [], unplanned: [], deviations: [] };
  const { question, claim, source } = settled;
  const { bands, unplanned } = plannedFor({ settled }, done);
  const others = [
    ...figureDeviations(settled, done),
    ...bandDeviations(settled, done),
    ...designDeviations(settled, done),
    ...runDeviations(settled, done),
  ];
  return {
    name,
    hash,
    question,
    ...(claim === undefined ? {} : { claim }),
    ...(source === undefined ? {} : { source }),
    bands,
    unplanned,
    deviations: [...unplanned, ...others],
  };
}

const plannedBands = ({ primary, bands = [] }: Settled): Band[] => [
  ...(primary === undefined ? [] : [primary]),
  ...bands,
];

/** Where something was planned and is otherwise. */
function deviates<T>(planned: T | undefined, is: T | undefined): planned is T {
  return planned !== undefined && planned !== is;
}

/** Another level than was planned: no verdict can be given by it. */
function levelDeviations({ metric, channel }: Settled, done: Pick<Done, 'metric' | 'channel'>): Message[] {
  const found: Message[] = [];
  if (deviates(metric, done.metric)) found.push(deviation('deviation.metric', { planned: metric, is: done.metric }));
  if (deviates(channel, done.channel))
    found.push(deviation('deviation.channel', { planned: channel, is: done.channel }));
  return found;
}

function figureDeviations({ confidence, margin, method }: Settled, done: Done): Message[] {
  const found: Message[] = [];
  if (deviates(confidence, done.confidence))
    found.push(deviation('deviation.confidence', { planned: confidence, is: done.confidence }));
  if (deviates(margin, done.margin)) found.push(deviation('deviation.margin', { planned: margin, is: done.margin }));
  if (deviates<string>(method, done.method))
    found.push(deviation('deviation.method', { planned: method, is: done.method }));
  return found;
}

function bandDeviations(settled: Settled, { primary, bands }: Done): Message[] {
  const planned = plannedBands(settled);
  if (planned.length === 0) return [];
  const found: Message[] = [];
  if (settled.primary !== undefined && (primary === undefined || !sameBand(primary, settled.primary)))
    found.push(deviation('deviation.primary', { planned: settled.primary, is: primary }));
  const all = [...(primary === undefined ? [] : [primary]), ...bands];
  const added = all.filter((band) => !planned.some((one) => sameBand(band, one)));
  const missing = planned.filter((band) => !all.some((one) => sameBand(band, one)));
  if (added.length > 0) found.push(deviation('deviation.bands-added', { bands: added }));
  if (missing.length > 0) found.push(deviation('deviation.bands-missing', { bands: missing }));
  return found;
}

/** What is compared, within what, and what is taken out. */
function designDeviations(settled: Settled, { names, within, adjust, isAllPairs }: Done): Message[] {
  const found: Message[] = [];
  const { baseline, conditions, within: strata, adjust: covariates } = settled;
  const [first, ...others] = names;
  if (baseline !== undefined && !isSame([baseline], [first]))
    found.push(deviation('deviation.baseline', { planned: baseline, is: first }));
  if (conditions !== undefined && !isSame(conditions, others))
    found.push(deviation('deviation.conditions', { planned: conditions, are: others }));
  if (conditions !== undefined && conditions.length > 1 && (settled.isAllPairs === true) !== isAllPairs)
    found.push(deviation('deviation.all-pairs', { planned: settled.isAllPairs === true }));
  if (strata !== undefined && !isSame(strata, within))
    found.push(deviation('deviation.within', { planned: strata, are: within }));
  const [planned, are] = [covariates, adjust].map((list) => (list ?? []).map(adjustmentText));
  if (covariates !== undefined && !isSame(planned, are)) found.push(deviation('deviation.adjust', { planned, are }));
  return found;
}

/** Whether two lists hold the same words, in whatever order and case. */
function isSame(planned: readonly string[], are: readonly string[]): boolean {
  const [one, other] = [planned, are].map((list) => list.map((word) => word.toLowerCase()).sort());
  return one.length === other.length && one.every((word, k) => word === other[k]);
}

/** `speed exponent 1.5`, as the language has it. */
export const adjustmentText = ({ column, exponent, uncertainty }: PlannedAdjustment): string =>
  [
    column,
    ...(exponent === undefined ? [] : [`exponent ${exponent}`]),
    ...(uncertainty === undefined ? [] : [`uncertainty ${uncertainty}`]),
  ].join(' ');

function runDeviations({ runs, order }: Settled, done: Done): Message[] {
  const found: Message[] = [];
  const { counts } = done;
  if (runs !== undefined && counts.flat().some((count) => count !== runs))
    found.push(deviation('deviation.runs', { planned: runs, counts }));
  if (deviates(order, done.order)) found.push(deviation('deviation.order', { planned: order, is: done.order }));
  if (done.includesExcluded) found.push(deviation('deviation.excluded', {}));
  return found;
}

/**
 * What a reader is told of it: that the plan was not followed in some point; or, without a plan, how to state one.
 * @param bands how many were compared
 */
export function planWarnings(plan: PlanFollowed | undefined, bands: number): Warning[] {
  if (plan === undefined) return [tell('compare.unplanned', { bands })];
  return plan.deviations.map((one) => tell('plan.deviates', { plan: plan.name, deviation: one.message }));
}
