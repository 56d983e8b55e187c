import { ColumnVectors } from './columnVectors.ts';
import { oncePerArray } from './oncePerArray.ts';
import { plainFacts, plainNear, type ColumnFacts, type Distances, type NearCounts } from './plainFacts.ts';

/** Numbers from which on vectors are worth their start. */
const worthwhile = 256;

const vectorsFor = ({ length }: Float64Array): ColumnVectors | undefined =>
  length < worthwhile ? undefined : ColumnVectors.here();

/** What one pass over some numbers tells. @param values none infinite; not changed afterwards */
export const factsOf = oncePerArray((values): ColumnFacts => vectorsFor(values)?.factsOf(values) ?? plainFacts(values));

/** How many of some numbers lie nearer than each of four distances to their lowest, and then to their highest. */
export function nearEnds(values: Float64Array, distances: Distances): NearCounts {
  const { low, high } = factsOf(values);
  return vectorsFor(values)?.nearTo(values, [low, high], distances) ?? plainNear(values, low, high, distances);
}
