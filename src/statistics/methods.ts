import type { Estimate } from './estimate.ts';
import { pairedT } from './pairedT.ts';
import { pooledT } from './pooledT.ts';
import { trend } from './trend.ts';
import { welchT } from './welchT.ts';

/** How the difference of two conditions and its error are taken from the runs. */
export type Method = 'welch' | 'pooled' | 'paired' | 'trend';

export const methods: readonly Method[] = ['welch', 'pooled', 'paired', 'trend'];

/** The phrase that names each method to a reader. */
export const methodNames: Readonly<Record<Method, string>> = {
  welch: 'Welch t interval on the logarithms of the runs',
  pooled: 'pooled t interval on the logarithms of the runs',
  paired: 'paired t interval on the logarithms of the runs',
  trend: 'linear trend over the run order taken out',
};

/** Fewest runs a side from which anything is inferred about other runs. */
export const fewestRuns = 3;

/** Places of the runs in the day's order. */
export interface RunOrder {
  readonly a: readonly number[];
  readonly b: readonly number[];
}

/** Why a method cannot be used with these counts, as the end of a sentence; undefined when it can. */
export function obstacle(
  method: Method,
  runsA: number,
  runsB: number,
  order: RunOrder | undefined,
): string | undefined {
  if (method === 'paired' && runsA !== runsB)
    return `pairs need as many runs of A as of B, and there are ${runsA} and ${runsB}`;
  if (method === 'trend') {
    if (order === undefined) return 'the trend method needs the order of the runs';
    const places = [...order.a, ...order.b];
    if (new Set(places).size < places.length) return 'two runs have the same place in the order';
    const [low, high] = [Math.min(...order.a), Math.max(...order.a)];
    const apart = order.b.every((place) => place < low) || order.b.every((place) => place > high);
    if (apart) return 'all runs of one condition came before the other, so drift and change cannot be told apart';
  }
  return undefined;
}

/** The estimate by a method; undefined where the data do not scatter or the method cannot be used. */
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
