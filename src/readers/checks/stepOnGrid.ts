import { tenTo } from '../../numbers/power.ts';
import { factsOf } from '../columnFacts.ts';
import { ColumnVectors } from '../columnVectors.ts';

/** Units beyond which a double no longer tells one from the next by far; places on the grid for each sample, beyond which a sort is as quick. */
const [mostUnits, mostPlaces] = [2 ** 40, 16];
/** Decimals that a number is written with at most. */
const mostDecimals = 12;

/** Which places of a grid are taken, kept from one call to the next. */
let places = new Uint8Array(0);

/**
 * Smallest difference between two values that occur, of samples that were all written with so many decimals: found
 * without a sort, by marking the places on the grid of the last digit. The same bits as of the sorted samples; undefined
 * where they are on no such grid, or one that is too wide.
 */
export function stepOnGrid(samples: Float64Array): number | undefined {
  const { isWhole, low, high, leastChange } = factsOf(samples);
  if (!isWhole || !(high > low)) return undefined;
  let decimals = 0;
  while (decimals <= mostDecimals && leastChange * tenTo(decimals) < 1 - 1e-6) decimals++;
  // The smallest change beside each other may be ten units or more of a digit that the samples have.
  const found = stepWith(samples, decimals);
  const finer = Number.isNaN(found) ? stepWith(samples, decimals + 1) : found;
  return Number.isNaN(finer) ? undefined : finer;
}

/** The step of samples that have no more than so many decimals; NaN where some have more, undefined where the grid is too wide. */
function stepWith(samples: Float64Array, decimals: number): number | undefined {
  if (decimals > mostDecimals) return undefined;
  const { low, high } = factsOf(samples);
  const scale = tenTo(decimals);
  const [first, last] = [Math.round(low * scale), Math.round(high * scale)];
  const count = last - first + 1;
  if (!(Math.max(Math.abs(first), Math.abs(last)) < mostUnits && count <= mostPlaces * samples.length))
    return undefined;
  return (
    ColumnVectors.for(samples)?.stepOnGrid(samples, first, count, scale) ?? plainStep(samples, first, count, scale)
  );
}

/** The step by plain loops; NaN where a sample is on no place of the grid. */
export function plainStep(samples: Float64Array, first: number, count: number, scale: number): number {
  if (places.length < count) places = new Uint8Array(count);
  else places.fill(0, 0, count);
  for (let i = 0; i < samples.length; i++) {
    const unit = Math.round(samples[i] * scale);
    if (unit / scale !== samples[i]) return NaN;
    places[unit - first] = 1;
  }
  return leastBetween(first, count, scale);
}

/** The smallest difference of two neighbours among the places that are taken: of those the fewest units apart. */
function leastBetween(first: number, count: number, scale: number): number {
  let [before, gap, least] = [0, Infinity, Infinity];
  for (let at = 1; at < count; at++) {
    if (places[at] === 0) continue;
    const apart = at - before;
    if (apart <= gap) {
      const step = (first + at) / scale - (first + before) / scale;
      if (apart < gap || step < least) least = step;
      gap = apart;
    }
    before = at;
  }
  return least;
}
