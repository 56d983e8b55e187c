import { contrast, groupContrast, type Contrast, type GroupContrast } from './contrast.ts';
import type { Change, KnownRun } from './knownRun.ts';
import { sequenceOf, type Sequence } from './sequence.ts';

/**
 * How the difference of two conditions and its error are taken from the runs: Welch's t of the two sets; differences
 * within pairs; an intercept for each day and one slope within the days; a straight, or a straight and a curved, drift
 * over the order taken out; the cells of several strata, each with its own scatter; or the changes of several days, with
 * their scatter from day to day; or the means of refits, with their scatter, without and with a drift taken out.
 */
export type Method =
  'welch' | 'paired' | 'days' | 'trend' | 'curve' | 'strata' | 'over-days' | 'refits' | 'refits-trend';

/** Fewest runs a side from which anything is inferred about other runs. */
export const fewestRuns = 3;

/** Fewest runs a side in each of several strata that are put together, and fewest days that stand for other days. */
export const fewestInCell = 2;
export const fewestDays = 3;

/** Fewest runs a side with which the slope of a covariate is fitted. */
export const fewestForSlope = 4;

/** From so many runs on the smaller side a curved drift is taken out too, and each run enters by its own residual. */
const runsForCurve = 6;

/** What is known of each side's runs, one entry a run, in the order of the levels. */
export interface RunsKnown<T> {
  readonly a: readonly T[];
  readonly b: readonly T[];
}

/** A method that the author or the plan named; else the layout decides. */
export type Asked = 'paired' | 'trend' | undefined;

/** How a test of two conditions was laid out, from its run sheet. */
export interface TestLayout {
  readonly runsA: number;
  readonly runsB: number;
  /** Place of each run in the order they were made in. */
  readonly order?: RunsKnown<number> | undefined;
  /** The pair of each run, where the sheet names pairs. */
  readonly pairs?: RunsKnown<string> | undefined;
  /** The day or session of each run, where there are several. */
  readonly days?: RunsKnown<string> | undefined;
  readonly asked?: Asked;
}

/** Why a method that was asked for cannot be used with the runs there are. */
export type Obstacle =
  | 'unequal-counts'
  /** The sheet's pairs do not hold one run of each condition. */
  | 'pairs-incomplete'
  | 'no-order'
  | 'same-place';

export interface ChosenMethod<C = GroupContrast> {
  readonly method: Method;
  /** Undefined where the layout lets nothing be told. */
  readonly contrast: C | undefined;
  readonly sequence: Sequence;
  /** sum w^2 of the contrast with a straight drift taken out, over what it were without; undefined without an order. */
  readonly varianceInflation: number | undefined;
  /** What kept the asked method from being used. */
  readonly obstacle: Obstacle | undefined;
}

/** A method for one change, and the runs that it is of: indices into those that are known. */
export interface ChosenForChange extends ChosenMethod {
  readonly runs: readonly number[];
}

/** Columns that are taken out, and how the scatter enters. */
interface Model {
  readonly nuisance: readonly (readonly number[])[];
  readonly scatter: 'mq' | 'hc2';
}

/**
 * The method that a layout calls for; the levels have no say in it. Pairs that the sheet names are compared within;
 * days get an intercept each and a common slope; a known order has its drift taken out, straight with fewer than 6 runs
 * on the smaller side, else straight and curved; without an order it is Welch's t (coverage and power of each rule by
 * simulation: scripts/simulate/RESULTS.md).
 */
export function chooseMethod({ runsA, runsB, order, pairs, days, asked }: TestLayout): ChosenMethod<Contrast> {
  const side = (condition: 'A' | 'B', count: number): KnownRun[] =>
    Array.from({ length: count }, (_, k) => {
      const of = <T>(known: RunsKnown<T> | undefined): T | undefined => known?.[condition === 'A' ? 'a' : 'b'][k];
      return { condition, stratum: '', place: of(order), pair: of(pairs), day: of(days) };
    });
  const runs = [...side('A', runsA), ...side('B', runsB)];
  const conditions = runs.map(({ condition }) => condition as 'A' | 'B');
  const change = { from: 'A', to: 'B' };
  return choose(runs, change, asked, (_, model) => contrast({ conditions, ...model }));
}

/**
 * The same of one change among several conditions and strata: with reference runs and the runs of other conditions,
 * which tell of the drift and bring a mean and a scatter of their own. Over several strata the change is the mean of
 * the strata's with equal weights. Pairs are of the two conditions alone.
 *
 * @param isPooled whether one scatter stands for all runs
 */
export function chooseForChange(
  runs: readonly KnownRun[],
  change: Change,
  asked: Asked,
  isPooled = false,
): ChosenForChange {
  let used: readonly number[] = [];
  const chosen = choose(runs, change, asked, (indices, model) => {
    used = indices;
    const groups = indices.map((index) => cellOf(runs[index]));
    const made = groupContrast({
      groups,
      weights: weightsOf(runs, change),
      nuisance: model.nuisance,
      scatter: isPooled ? 'pooled' : model.scatter,
    });
    return made;
  });
  return { ...chosen, runs: used };
}

const cellOf = ({ condition, stratum }: KnownRun): string => `${condition}\u0000${stratum}`;

/** Each stratum's change has the same weight. */
function weightsOf(runs: readonly KnownRun[], { from, to }: Change): Map<string, number> {
  const strata = [...new Set(runs.filter(({ condition }) => condition === to).map(({ stratum }) => stratum))];
  return new Map(
    strata.flatMap((stratum): [string, number][] => [
      [cellOf({ condition: from, stratum }), -1 / strata.length],
      [cellOf({ condition: to, stratum }), 1 / strata.length],
    ]),
  );
}

/** Makes the contrast of some runs by a model, or tells that it can't be. */
type Make<C> = (indices: readonly number[], model: Model) => C | undefined;

function choose<C extends GroupContrast>(
  runs: readonly KnownRun[],
  change: Change,
  asked: Asked,
  make: Make<C>,
): ChosenMethod<C> {
  const all = runs.map((_, index) => index);
  const own = all.filter((index) => isOf(runs[index], change));
  const counts = cellCounts(runs);
  const smallest = Math.min(...counts);
  const placed = placesOf(runs);
  const places = areDistinct(runs) ? placed : undefined;
  const covariates = columnsOf(runs);
  const straightly = (list: readonly number[]): C | undefined => {
    const of = (scatter: Model['scatter']): C | undefined => make(all, { nuisance: [list, ...covariates], scatter });
    return of('mq') ?? of('hc2');
  };
  const straight = places === undefined ? undefined : straightly(places);
  const varianceInflation = straight?.varianceInflation;
  const { pairs, obstacle } = pairsOf(
    own.map((index) => runs[index]),
    change,
    asked,
  );
  const by = (method: Method, made: C | undefined): ChosenMethod<C> => ({
    sequence: sequenceOf(runs, change, places !== undefined, varianceInflation),
    varianceInflation,
    method,
    contrast: made,
    obstacle: obstacle ?? trendObstacle(placed, places, asked),
  });
  if (pairs !== undefined) {
    const kept = covariates.map((column) => own.map((index) => column[index]));
    return by('paired', make(own, { nuisance: [...intercepts(pairs), ...kept], scatter: 'hc2' }));
  }
  const days = asked === undefined ? daysOf(runs) : undefined;
  if (days !== undefined) {
    const slopes = places === undefined ? [] : [withinDays(days, places)];
    const made = make(all, { nuisance: [...intercepts(days), ...slopes, ...covariates], scatter: 'hc2' });
    if (made !== undefined) return by('days', made);
  }
  const strata = counts.length > new Set(runs.map(({ condition }) => condition)).size;
  const plain = (): C | undefined => make(all, { nuisance: covariates, scatter: 'mq' });
  if (strata && smallest < fewestRuns) return by('strata', plain());
  if (places === undefined || straight === undefined) return by('welch', plain());
  if (smallest < runsForCurve || asked === 'trend') return by('trend', straight);
  const middle = places.reduce((sum, place) => sum + place, 0) / places.length;
  const squares = places.map((place) => (place - middle) ** 2);
  return by('curve', make(all, { nuisance: [places, squares, ...covariates], scatter: 'hc2' }));
}

const isOf = ({ condition, isReference }: KnownRun, { from, to }: Change): boolean =>
  isReference !== true && (condition === from || condition === to);

/** Runs in each cell of condition and stratum, reference runs apart. */
function cellCounts(runs: readonly KnownRun[]): number[] {
  const cells = runs.filter(({ isReference }) => isReference !== true).map(cellOf);
  return [...new Set(cells)].map((cell) => cells.filter((other) => other === cell).length);
}

/** Something that is known of every run; undefined otherwise. */
function everyOne<T>(runs: readonly KnownRun[], of: (run: KnownRun) => T | undefined): T[] | undefined {
  const known = runs.map(of).filter((one) => one !== undefined);
  return known.length === runs.length && known.length > 0 ? known : undefined;
}

/** Whether no two runs of a stratum have one place. */
const areDistinct = (runs: readonly KnownRun[]): boolean =>
  new Set(runs.map(({ stratum, place }) => `${place} ${stratum}`)).size === runs.length;

const placesOf = (runs: readonly KnownRun[]): number[] | undefined => everyOne(runs, ({ place }) => place);

function daysOf(runs: readonly KnownRun[]): string[] | undefined {
  const days = everyOne(runs, ({ day }) => day);
  const strata = [...new Set(runs.map(({ stratum }) => stratum))];
  // Days that are strata, or that each stratum has one of, are told apart already.
  const differ = strata.some(
    (stratum) => new Set(days?.filter((_, index) => runs[index].stratum === stratum)).size > 1,
  );
  return differ ? days : undefined;
}

/** The covariates of all runs as columns. */
function columnsOf(runs: readonly KnownRun[]): number[][] {
  const rows = everyOne(runs, ({ covariates }) => covariates) ?? [];
  return (rows[0] ?? []).map((_, k) => rows.map((row) => row[k]));
}

function trendObstacle(
  placed: readonly number[] | undefined,
  distinct: readonly number[] | undefined,
  asked: Asked,
): Obstacle | undefined {
  if (asked !== 'trend' || distinct !== undefined) return undefined;
  return placed === undefined ? 'no-order' : 'same-place';
}

/** The pair of each run of the two conditions, where pairs were asked for or named; or what keeps runs from being paired. */
function pairsOf(
  own: readonly KnownRun[],
  { from, to }: Change,
  asked: Asked,
): { readonly pairs?: readonly (number | string)[]; readonly obstacle?: Obstacle } {
  const named = everyOne(own, ({ pair }) => pair);
  if (asked === 'trend' || (asked === undefined && named === undefined)) return {};
  const [a, b] = [from, to].map((one) => own.filter(({ condition }) => condition === one));
  if (a.length !== b.length) return { obstacle: 'unequal-counts' };
  if (named === undefined) return { pairs: own.map((run) => rankOf(run, own)) };
  const [inA, inB] = [a, b].map((runs) => runs.map(({ pair }) => pair));
  const isPaired = new Set(inA).size === a.length && inA.every((pair) => inB.includes(pair));
  return isPaired ? { pairs: named } : { obstacle: 'pairs-incomplete' };
}

/** The rank of a run among its own condition's, so that the k-th of A meets the k-th of B: by place, else as they stand. */
function rankOf(run: KnownRun, own: readonly KnownRun[]): number {
  const same = own.filter(({ condition }) => condition === run.condition);
  const { place } = run;
  if (place === undefined || same.some((other) => other.place === undefined)) return same.indexOf(run);
  return same.filter((other) => (other.place ?? 0) < place).length;
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
