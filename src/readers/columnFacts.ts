import { ColumnVectors } from './columnVectors.ts';
import {
  factsIn,
  factsOfNone,
  plainEvery,
  plainLeastSpan,
  plainLook,
  plainNear,
  plainSpread,
  plainSteps,
  type Around,
  type ColumnFacts,
  type Distances,
  type FactsSoFar,
  type NearCounts,
  type Span,
  type Spread,
  type StepBounds,
  type StepSizes,
} from './plainFacts.ts';

/** Numbers from which on vectors are worth their start. */
const worthwhile = 256;

/** What is known of arrays that nobody changes any more; they are long, and asked about more than once. */
const known = new WeakMap<Float64Array, ColumnFacts>();

/** What one pass over some numbers tells. @param values none infinite; not changed afterwards */
export function factsOf(values: Float64Array): ColumnFacts {
  const before = known.get(values);
  if (before !== undefined) return before;
  const all = factsOfNone();
  look(all, values, 0, values.length);
  const facts = factsIn(all);
  known.set(values, facts);
  return facts;
}

function look(all: FactsSoFar, values: Float64Array, from: number, to: number): void {
  const vectors = to - from < worthwhile ? undefined : ColumnVectors.for(values);
  if (vectors === undefined) plainLook(all, values, from, to);
  else vectors.look(all, values, from, to);
}

/** Facts of a column that is still being read, by which no other pass is needed once it is whole. */
export class GrowingFacts {
  readonly #all = factsOfNone();
  #count = 0;

  /** Looks at the numbers that have come since, up to so many in all; those before have stayed as they were. */
  upTo(values: Float64Array, count: number): void {
    look(this.#all, values, this.#count, count);
    this.#count = count;
  }

  /** Keeps them for an array of the numbers that were looked at; of any other it is left to be looked at. */
  keepFor(values: Float64Array): void {
    if (values.length === this.#count) known.set(values, factsIn(this.#all));
  }
}

const vectorsFor = (values: Float64Array): ColumnVectors | undefined =>
  values.length < worthwhile ? undefined : ColumnVectors.for(values);

/** The smallest difference of a number to the one so many rows before it, of those that are not below 0; Infinity where there is none. */
export const leastSpan = (values: Float64Array, rows: number): number =>
  vectorsFor(values)?.leastSpan(values, rows) ?? plainLeastSpan(values, rows);

/** Each so many-th of some numbers, from the first on, as a copy. */
export const everyOf = (values: Float64Array, stride: number): Float64Array =>
  vectorsFor(values)?.every(values, stride) ?? plainEvery(values, stride);

/** How many of some numbers lie nearer than each of four distances to their lowest, and then to their highest. */
export function nearEnds(values: Float64Array, distances: Distances): NearCounts {
  const { low, high } = factsOf(values);
  return vectorsFor(values)?.nearTo(values, [low, high], distances) ?? plainNear(values, low, high, distances);
}

const vectorsWithin = (values: Float64Array, spans: readonly Span[]): ColumnVectors | undefined =>
  spans.length * worthwhile <= values.length ? ColumnVectors.for(values) : undefined;

/** The spread of the steps from number to number within spans, none of which goes from one to another. */
export const spreadOf = (values: Float64Array, spans: readonly Span[], around: Around): Spread =>
  vectorsWithin(values, spans)?.spreadOf(values, spans, around) ?? plainSpread(values, spans, around);

/** How many such steps are of which size. */
export const stepsOf = (values: Float64Array, spans: readonly Span[], bounds: StepBounds): StepSizes =>
  vectorsWithin(values, spans)?.stepsOf(values, spans, bounds) ?? plainSteps(values, spans, bounds);
