import { contrast, type Contrast } from './contrast.ts';

/**
 * How the difference of two conditions and its error are taken from the runs: Welch's t of the two sets; differences
 * within pairs; an intercept for each day and one slope within the days; a straight, or a straight and a curved, drift
 * over the order taken out.
 */
export type Method = 'welch' | 'paired' | 'days' | 'trend' | 'curve';

/** Fewest runs a side from which anything is inferred about other runs. */
export const fewestRuns = 3;

/** From so many runs on the smaller side a curved drift is taken out too, and each run enters by its own residual. */
const runsForCurve = 6;

/** What is known of each side's runs, one entry a run, in the order of the levels. */
export interface RunsKnown<T> {
  readonly a: readonly T[];
  readonly b: readonly T[];
}

/** How the test was laid out, from its run sheet. */
export interface TestLayout {
  readonly runsA: number;
  readonly runsB: number;
  /** Place of each run in the order they were made in. */
  readonly order?: RunsKnown<number> | undefined;
  /** The pair of each run, where the sheet names pairs. */
  readonly pairs?: RunsKnown<string> | undefined;
  /** The day or session of each run, where there are several. */
  readonly days?: RunsKnown<string> | undefined;
  /** A method that the author or the plan named; else the layout decides. */
  readonly asked?: 'paired' | 'trend' | undefined;
}

/** Why a method that was asked for cannot be used with the runs there are. */
export type Obstacle =
  | 'unequal-counts'
  /** The sheet's pairs do not hold one run of each condition. */
  | 'pairs-incomplete'
  | 'no-order'
  | 'same-place';

/** How the runs of both sides follow one another. */
export type Sequence =
  /** The order is not known. */
  | 'unknown'
  | 'interleaved'
  /** One condition came earlier on the whole, so that its drift costs precision (variance inflation above 1.5). */
  | 'leaning'
  /** All runs of one condition came before the other's: drift and change cannot be told apart. */
  | 'apart';

export interface ChosenMethod {
  readonly method: Method;
  /** Of A's runs and then B's; undefined where the layout lets nothing be told. */
  readonly contrast: Contrast | undefined;
  readonly sequence: Sequence;
  /** sum w^2 / (1/nA + 1/nB) of the contrast with a straight drift taken out; undefined without an order. */
  readonly varianceInflation: number | undefined;
  /** What kept the asked method from being used. */
  readonly obstacle: Obstacle | undefined;
}

/** Variance inflation above which an order leans. */
const leaning = 1.5;

/**
 * The method that a layout calls for; the levels have no say in it. Pairs that the sheet names are compared within;
 * days get an intercept each and a common slope; a known order has its drift taken out, straight with fewer than 6 runs
 * on the smaller side, else straight and curved; without an order it is Welch's t (coverage and power of each rule by
 * simulation: scripts/simulate/RESULTS.md).
 */
export function chooseMethod(layout: TestLayout): ChosenMethod {
  const { runsA, runsB, order, days, asked } = layout;
  const conditions = [...Array<'A'>(runsA).fill('A'), ...Array<'B'>(runsB).fill('B')];
  const places = order && [...order.a, ...order.b];
  const distinct = new Set(places).size === places?.length ? places : undefined;
  const straight = distinct === undefined ? undefined : straightDrift(conditions, distinct);
  const varianceInflation = straight?.varianceInflation;
  const sequence = sequenceOf(distinct && order, days, varianceInflation);
  const { pairs, obstacle } = pairsOf(layout);
  const by = (method: Method, made: Contrast | undefined): ChosenMethod => ({
    sequence,
    varianceInflation,
    method,
    contrast: made,
    obstacle: obstacle ?? trendObstacle(layout, distinct),
  });
  if (pairs !== undefined) return by('paired', contrast({ conditions, nuisance: intercepts(pairs), scatter: 'hc2' }));
  const byDays = asked === undefined && days !== undefined ? withDays(conditions, days, distinct) : undefined;
  if (byDays !== undefined) return by('days', byDays);
  if (distinct === undefined || straight === undefined)
    return by('welch', contrast({ conditions, nuisance: [], scatter: 'mq' }));
  if (Math.min(runsA, runsB) < runsForCurve || asked === 'trend') return by('trend', straight);
  const middle = distinct.reduce((sum, place) => sum + place, 0) / distinct.length;
  const squares = distinct.map((place) => (place - middle) ** 2);
  return by('curve', contrast({ conditions, nuisance: [distinct, squares], scatter: 'hc2' }));
}

function straightDrift(conditions: readonly ('A' | 'B')[], places: readonly number[]): Contrast | undefined {
  const of = (scatter: 'mq' | 'hc2'): Contrast | undefined => contrast({ conditions, nuisance: [places], scatter });
  return of('mq') ?? of('hc2');
}

function withDays(
  conditions: readonly ('A' | 'B')[],
  { a, b }: RunsKnown<string>,
  places: readonly number[] | undefined,
): Contrast | undefined {
  const days = [...a, ...b];
  const slopes = places === undefined ? [] : [withinDays(days, places)];
  return contrast({ conditions, nuisance: [...intercepts(days), ...slopes], scatter: 'hc2' });
}

function trendObstacle({ order, asked }: TestLayout, distinct: readonly number[] | undefined): Obstacle | undefined {
  if (asked !== 'trend' || distinct !== undefined) return undefined;
  return order === undefined ? 'no-order' : 'same-place';
}

/** The pair of each of A's and then B's runs, where pairs were asked for or named; or what keeps runs from being paired. */
function pairsOf({ runsA, runsB, order, pairs, asked }: TestLayout): {
  readonly pairs?: readonly (number | string)[];
  readonly obstacle?: Obstacle;
} {
  if (asked === 'trend' || (asked === undefined && pairs === undefined)) return {};
  if (runsA !== runsB) return { obstacle: 'unequal-counts' };
  if (pairs === undefined) return { pairs: [...rankOf(order?.a, runsA), ...rankOf(order?.b, runsB)] };
  const isPaired = new Set(pairs.a).size === runsA && pairs.a.every((pair) => pairs.b.includes(pair));
  return isPaired ? { pairs: [...pairs.a, ...pairs.b] } : { obstacle: 'pairs-incomplete' };
}

function sequenceOf(
  order: RunsKnown<number> | undefined,
  days: RunsKnown<string> | undefined,
  inflation: number | undefined,
): Sequence {
  if (days !== undefined && new Set([...days.a, ...days.b]).size === 2 && !days.a.some((day) => days.b.includes(day)))
    return 'apart';
  if (order === undefined) return 'unknown';
  const apart = Math.max(...order.a) < Math.min(...order.b) || Math.max(...order.b) < Math.min(...order.a);
  if (apart) return 'apart';
  return inflation === undefined || inflation > leaning ? 'leaning' : 'interleaved';
}

/** The rank of each run among its own condition's, so that the k-th of A meets the k-th of B. */
function rankOf(places: readonly number[] | undefined, count: number): number[] {
  if (places === undefined) return Array.from({ length: count }, (_, k) => k);
  return places.map((place) => places.filter((other) => other < place).length);
}

/** An indicator for each group but the first, for which the constant stands. */
function intercepts(groups: readonly (number | string)[]): number[][] {
  return [...new Set(groups)].slice(1).map((group) => groups.map((one) => (one === group ? 1 : 0)));
}

/** Place within the day: each less the mean of its day's. */
function withinDays(days: readonly string[], places: readonly number[]): number[] {
  return places.map((place, i) => {
    const same = places.filter((_, j) => days[j] === days[i]);
    return place - same.reduce((sum, one) => sum + one, 0) / same.length;
  });
}
