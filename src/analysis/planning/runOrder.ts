import { driftBalance, interleavedOrder, orderText, placesOf, randomisedBlocks } from '../../statistics/order.ts';
import type { OrderValue } from '../../values/order.ts';
import { sheetOfOrder } from './sheetText.ts';

/** The most runs of each condition that an order is made for. */
export const mostRuns = 100;

/**
 * An order in which to make the runs of two conditions, with its run sheet.
 *
 * @param runs of each condition, a whole number from 1 to `mostRuns`
 * @param seed of the coin that decides in each pair; undefined for an interleaved order (see `interleavedOrder`)
 * @param conditions what A and B are called in the run sheet
 */
export function runOrder(
  runs: number,
  seed: number | undefined,
  conditions: readonly [a: string, b: string],
): OrderValue {
  const sequence = seed === undefined ? interleavedOrder(runs) : randomisedBlocks(runs, seed);
  const places = placesOf(sequence);
  return {
    kind: 'order',
    scheme: seed === undefined ? `Interleaved (${orderText(sequence)})` : `Randomised blocks, seed ${seed}`,
    sequence,
    leanPercent: driftBalance(places.a, places.b).steady,
    conditions,
    sheet: sheetOfOrder(sequence, conditions, seed !== undefined),
  };
}
