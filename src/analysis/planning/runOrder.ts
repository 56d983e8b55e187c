import { driftBalance, interleavedOrder, orderText, placesOf, randomisedBlocks } from '../../statistics/order.ts';
import { randomisedSeveral, williamsOrder, worstBalance } from '../../statistics/severalOrder.ts';
import type { OrderValue } from '../../values/order.ts';
import { sheetOfOrder } from './sheetText.ts';

/** The most runs of each condition that an order is made for, and the most conditions. */
export const mostRuns = 100;
export { mostConditions } from '../../statistics/severalOrder.ts';

/**
 * An order in which to make the runs of two or more conditions, with its run sheet.
 *
 * @param runs of each condition, a whole number from 1 to `mostRuns`
 * @param seed of the chance that decides in each block of one run each; undefined for an interleaved order (see
 *   `interleavedOrder`, and `williamsOrder` of more than two)
 * @param conditions what A, B, C … are called in the run sheet, 2 to `mostConditions`
 */
export function runOrder(runs: number, seed: number | undefined, conditions: readonly string[]): OrderValue {
  const made = conditions.length === 2 ? orderOfTwo(runs, seed) : orderOfSeveral(runs, seed, conditions.length);
  const { sequence } = made;
  return { kind: 'order', ...made, conditions, sheet: sheetOfOrder(sequence, conditions, seed !== undefined) };
}

type Made = Pick<OrderValue, 'scheme' | 'sequence' | 'leanPercent'>;

function orderOfTwo(runs: number, seed: number | undefined): Made {
  const sequence = seed === undefined ? interleavedOrder(runs) : randomisedBlocks(runs, seed);
  const places = placesOf(sequence);
  return {
    scheme: seed === undefined ? `Interleaved (${orderText(sequence)})` : `Randomised blocks, seed ${seed}`,
    sequence,
    leanPercent: driftBalance(places.a, places.b).linear,
  };
}

function orderOfSeveral(runs: number, seed: number | undefined, conditions: number): Made {
  const order = seed === undefined ? williamsOrder(runs, conditions) : randomisedSeveral(runs, conditions, seed);
  const sequence = order.map(letterOf);
  const text = orderText(sequence, conditions);
  return {
    scheme:
      seed === undefined
        ? `Rows of a Williams design (1949), each beside its mirror image (${text})`
        : `Randomised blocks, seed ${seed}`,
    sequence,
    leanPercent: worstBalance(order).linear,
  };
}

/** The letter of a condition by its index: the baseline is A. */
const letterOf = (index: number): string => String.fromCharCode('A'.charCodeAt(0) + index);
