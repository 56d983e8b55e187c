import { seededRandom } from './random.ts';
import { meanAndVariance } from './summary.ts';
import { powerOf } from '../numbers/power.ts';

export type Condition = 'A' | 'B';

/**
 * The order ABBA BAAB BAAB ABBA ..., cut after `runs` pairs: each pair holds one run of each condition, and the
 * pairs are turned by the Thue-Morse rule. Four runs cancel a steady drift, eight a curved one, and so on
 * (Prouhet 1851, C. R. Acad. Sci. Paris 33).
 *
 * @param runs of each condition, a whole number from 1
 */
function abbaOrder(runs: number): Condition[] {
  return Array.from({ length: runs }, (_, pair) => pairOf(ones(pair) % 2 === 0)).flat();
}

/** Orders of 3, 5, 6 and 7 pairs that let neither a steady nor, as far as may be, a curved drift pass for a change. */
const settledOrders: Readonly<Partial<Record<number, string>>> = {
  3: 'ABBAAB',
  5: 'ABBAABBAAB',
  6: 'ABBAABABBAAB',
  7: 'ABBABABAABABBA',
};

/**
 * The order to make runs in: the Thue-Morse order for multiples of 4, where it cancels steady and curved drift; else a
 * settled one, behind so many fours.
 *
 * @param runs of each condition, a whole number from 1 to 10 000
 * @throws RangeError for any other number
 */
export function interleavedOrder(runs: number): Condition[] {
  requireRuns(runs);
  const rest = runs % 4 === 0 ? 0 : runs < 4 ? runs : (runs % 4) + 4;
  const last = settledOrders[rest] === undefined ? abbaOrder(rest || runs) : [...settledOrders[rest]];
  return rest === 0 || rest === runs ? (last as Condition[]) : [...abbaOrder(runs - rest), ...(last as Condition[])];
}

/**
 * Pairs AB or BA by the toss of a coin: randomised blocks of two. The same seed gives the same order.
 *
 * @param runs of each condition, a whole number from 1 to 10 000
 * @param seed any whole number
 * @throws RangeError for any other number of runs
 */
export function randomisedBlocks(runs: number, seed: number): Condition[] {
  requireRuns(runs);
  const random = seededRandom(seed);
  return Array.from({ length: runs }, () => pairOf(random() < 0.5)).flat();
}

/** Places of the runs of each condition in an `order`, counted from 1. */
export function placesOf(order: readonly Condition[]): { readonly a: number[]; readonly b: number[] } {
  const places = (wanted: Condition): number[] =>
    order.flatMap((condition, k) => (condition === wanted ? [k + 1] : []));
  return { a: places('A'), b: places('B') };
}

/**
 * Letters of an order to be read in blocks: `ABBA BAAB`.
 *
 * @param block letters in each
 */
export function orderText(order: readonly string[], block = 4): string {
  return order.join('').replace(new RegExp(`(.{${block}})(?=.)`, 'g'), '$1 ');
}

/** How far an order lets a drift pass for a change. */
export interface DriftBalance {
  /** Mean place of B minus that of A: a drift of 1 % a run gives a false change of this many percent. */
  readonly linear: number;
  /** The same for a curved drift: mean squared distance from the middle of the day, B minus A. */
  readonly quadratic: number;
}

/**
 * How far an order lets a steady or a curved drift pass for a change; both parts are 0 for ABBA BAAB.
 *
 * @param placesA places of the runs of A in the day's order, at least one
 * @param placesB likewise of B
 */
export function driftBalance(placesA: readonly number[], placesB: readonly number[]): DriftBalance {
  const middle = meanAndVariance([...placesA, ...placesB]).mean;
  const mean = (places: readonly number[], power: number): number =>
    meanAndVariance(places.map((place) => powerOf(place - middle, power))).mean;
  return { linear: mean(placesB, 1) - mean(placesA, 1), quadratic: mean(placesB, 2) - mean(placesA, 2) };
}

const pairOf = (straight: boolean): Condition[] => (straight ? ['A', 'B'] : ['B', 'A']);

/** Number of ones in the binary form of k. */
function ones(k: number): number {
  let count = 0;
  for (let rest = k; rest > 0; rest = Math.floor(rest / 2)) count += rest % 2;
  return count;
}

function requireRuns(runs: number): void {
  if (!(Number.isInteger(runs) && runs >= 1 && runs <= 10_000)) {
    throw new RangeError(`runs must be a whole number from 1 to 10000, but is ${runs}`);
  }
}
