import { ColumnVectors } from './columnVectors.ts';
import { oncePerArray } from './oncePerArray.ts';
import {
  plainFacts,
  plainNear,
  plainSpread,
  type Around,
  type ColumnFacts,
  type Distances,
  type NearCounts,
  type Span,
  type Spread,
} from './plainFacts.ts';

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

/** The spread of the steps from number to number within spans, none of which goes from one to another. */
export function spreadOf(values: Float64Array, spans: readonly Span[], around: Around): Spread {
  const areLong = spans.length * worthwhile <= values.length;
  return (
    (areLong ? ColumnVectors.here()?.spreadOf(values, spans, around) : undefined) ?? plainSpread(values, spans, around)
  );
}
