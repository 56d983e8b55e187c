import { driftBalance, type DriftBalance } from './order.ts';
import { seededRandom } from './random.ts';

/** The most conditions that an order is made for: as many letters as are told apart at a glance. */
export const mostConditions = 8;

/** A row of a design: each condition once, as indices from 0. */
type Row = readonly number[];

/**
 * An order of several conditions in blocks that hold each once: the rows of a Williams design (Williams 1949,
 * Aust. J. Sci. Res. A 2, 149-168), in which each condition follows each other equally often, every row next to its
 * mirror image, so that a steady drift cancels within the two. With fewer blocks than the design has rows, those are
 * taken that leave a curved drift and the neighbours least out of balance. Multiples of the design's rows (as many as
 * conditions, twice as many where their number is odd) are balanced for neighbours within the blocks.
 *
 * @param runs of each condition, a whole number from 1
 * @param conditions from 3 to 8
 * @returns the conditions of all runs as indices from 0
 */
export function williamsOrder(runs: number, conditions: number): number[] {
  const rows = williamsRows(conditions);
  const order: number[] = [];
  let left = [...rows];
  while (order.length < runs * conditions) {
    if (left.length === 0) left = [...rows];
    const inPairs = runs * conditions - order.length > conditions;
    const next = inPairs ? left.map((row) => [...row, ...mirrored(row)]) : left;
    const chosen = next.reduce((best, one) =>
      cost([...order, ...one]) < cost([...order, ...best]) - 1e-9 ? one : best,
    );
    order.push(...chosen);
    const taken = inPairs ? [chosen.slice(0, conditions), chosen.slice(conditions)] : [chosen];
    left = left.filter((row) => !taken.some((one) => isSame(one, row)));
  }
  return order;
}

/**
 * Blocks that hold each condition once, in an order drawn for each. The same seed gives the same order.
 *
 * @param runs of each condition, a whole number from 1
 * @param conditions how many
 * @returns the conditions of all runs as indices from 0
 */
export function randomisedSeveral(runs: number, conditions: number, seed: number): number[] {
  const random = seededRandom(seed);
  return Array.from({ length: runs }, () => {
    const block = Array.from({ length: conditions }, (_, k) => k);
    // Fisher and Yates's shuffle.
    for (let k = conditions - 1; k > 0; k--) {
      const other = Math.floor(random() * (k + 1));
      [block[k], block[other]] = [block[other], block[k]];
    }
    return block;
  }).flat();
}

/**
 * The drift balance of each condition but the first against the first, the worst of them.
 *
 * @param order the conditions of all runs as indices from 0
 */
export function worstBalance(order: readonly number[]): DriftBalance {
  const placesOf = (condition: number): number[] => order.flatMap((one, k) => (one === condition ? [k + 1] : []));
  const others = [...new Set(order)].filter((one) => one !== 0);
  const balances = others.map((one) => driftBalance(placesOf(0), placesOf(one)));
  const worst = (of: (balance: DriftBalance) => number): number =>
    balances.map(of).reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0);
  return { linear: worst(({ linear }) => linear), quadratic: worst(({ quadratic }) => quadratic) };
}

/** The rows: 0, 1, k-1, 2, k-2 ... and the same shifted; with an odd number of conditions their mirror images, too. */
function williamsRows(conditions: number): Row[] {
  const first = Array.from({ length: conditions }, (_, i) =>
    i % 2 === 1 ? (i + 1) / 2 : (conditions - i / 2) % conditions,
  );
  const rows = Array.from({ length: conditions }, (_, shift) => first.map((one) => (one + shift) % conditions));
  return conditions % 2 === 0 ? rows : rows.flatMap((row) => [row, mirrored(row)]);
}

const mirrored = (row: Row): Row => [...row].reverse();
const isSame = (one: Row, other: Row): boolean => one.every((value, k) => value === other[k]);

/** How far an order is from balance: the spread of mean places, then of mean squared distances, then of neighbours. */
function cost(order: readonly number[]): number {
  const conditions = Math.max(...order) + 1;
  const middle = (order.length - 1) / 2;
  const spread = (of: (place: number) => number): number => {
    const means = Array.from({ length: conditions }, (_, one) => {
      const values = order.flatMap((other, place) => (other === one ? [of(place - middle)] : []));
      return values.reduce((sum, value) => sum + value, 0) / values.length;
    });
    return Math.max(...means) - Math.min(...means);
  };
  const followers = new Map<number, number>();
  order.slice(1).forEach((one, k) => {
    const pair = conditions * order[k] + one;
    followers.set(pair, (followers.get(pair) ?? 0) + 1);
  });
  const unlike = [...followers].filter(([pair]) => Math.floor(pair / conditions) !== pair % conditions);
  const counts = unlike.map(([, count]) => count);
  const possible = conditions * (conditions - 1);
  const neighbours = Math.max(...counts) - (counts.length < possible ? 0 : Math.min(...counts));
  return spread((place) => place) + spread((place) => place ** 2) / order.length + 0.01 * neighbours;
}
