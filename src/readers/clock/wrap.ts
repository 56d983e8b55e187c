import { factsOf } from '../columnFacts.ts';

/** Sizes of counters of 16 and 32 bits. */
export const counterSizes: readonly number[] = [65_536, 4_294_967_296];

/** Goes on where a counter of so many begins anew at nothing; the step across is then as short as any other. @param usual gives the step between rows */
export function unwrapped(
  values: Float64Array,
  usual: () => number,
  sizes: readonly number[] = counterSizes,
): Float64Array {
  if (factsOf(values).leastStep >= 0) return values;
  const step = usual();
  let shift = 0;
  let result: Float64Array | undefined;
  for (let i = 1; i < values.length; i++) {
    const back = values[i] - values[i - 1];
    for (const size of back < 0 ? sizes : []) {
      if (back + size > 0 && back + size < 5 * step) {
        shift += size;
        result ??= values.slice();
        break;
      }
    }
    if (result) result[i] = values[i] + shift;
  }
  return result ?? values;
}
