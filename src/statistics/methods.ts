import type { Estimate } from './estimate.ts';
import { pairedT } from './pairedT.ts';
import { pooledT } from './pooledT.ts';
import { trend } from './trend.ts';
import { welchT } from './welchT.ts';

/** How the difference of two conditions and its error are taken from the runs. */
export type Method = 'welch' | 'pooled' | 'paired' | 'trend';

export const methods: readonly Method[] = ['welch', 'pooled', 'paired', 'trend'];

/** Fewest runs a side from which anything is inferred about other runs. */
export const fewestRuns = 3;

/** Places of the runs in the day's order. */
export interface RunOrder {
  readonly a: readonly number[];
  readonly b: readonly number[];
}

/** Why a method cannot be used with the runs there are. */
export type Obstacle = 'unequal-counts' | 'no-order' | 'same-place' | 'one-before-the-other';

/**
 * What keeps a method from being used: pairs need as many runs of A as of B, a trend needs a place of its own for
 * each run, with the runs of A and B mingled.
 *
 * @param runsA, runsB how many runs each condition has
 * @param order place of each run in the day's order, where it is known
 * @returns undefined when the method can be used
 */
export function obstacle(
  method: Method,
  runsA: number,
  runsB: number,
  order: RunOrder | undefined,
): Obstacle | undefined {
  if (method === 'paired' && runsA !== runsB) return 'unequal-counts';
  if (method !== 'trend') return undefined;
  if (order === undefined) return 'no-order';
  const places = [...order.a, ...order.b];
  if (new Set(places).size < places.length) return 'same-place';
  const [low, high] = [Math.min(...order.a), Math.max(...order.a)];
  const apart = order.b.every((place) => place < low) || order.b.every((place) => place > high);
  return apart ? 'one-before-the-other' : undefined;
}

/**
 * The estimate by a method.
 *
 * @param a ln(level) of each run of A
 * @param b likewise of B
 * @param order place of each run in the day's order: `trend` needs it, `paired` pairs by it where it is known
 * @returns undefined where the data do not scatter or the method cannot be used
 */
export function estimateBy(
  method: Method,
  a: readonly number[],
  b: readonly number[],
  order: RunOrder | undefined,
): Estimate | undefined {
  if (method === 'welch') return welchT(a, b);
  if (method === 'pooled') return pooledT(a, b);
  if (method === 'paired') return pairedT(inOrder(a, order?.a), inOrder(b, order?.b));
  return order && trend(a, b, order.a, order.b);
}

/** Values sorted by their place in the order, so that the k-th of A meets the k-th of B. */
function inOrder(values: readonly number[], places: readonly number[] | undefined): readonly number[] {
  if (places === undefined) return values;
  return values
    .map((value, k) => ({ value, place: places[k] }))
    .sort((x, y) => x.place - y.place)
    .map(({ value }) => value);
}
