import { factsOf, spreadOf } from '../columnFacts.ts';
import type { Around, Span, Spread } from '../plainFacts.ts';
import { settings } from '../settings.ts';

/** Steps of a span less those of a clock that stood still. */
export function movingSteps(t: Float64Array, first: number, last: number): number {
  let steps = 0;
  for (let i = first + 1; i <= last; i++) if (t[i] !== t[i - 1]) steps++;
  return steps;
}

/**
 * Standard deviation of the steps over their mean with the rounding taken out: none where every step is one of the two
 * multiples of the quantum around the mean, else less the variance q²/6 of the difference of two rounding errors.
 */
export function unevenness(
  t: Float64Array,
  spans: readonly Span[],
  quantum: number,
  held: boolean,
): { jitter: number; rounded: boolean } {
  let count = 0;
  let sum = 0;
  for (const { from, to } of spans) {
    if (to - from < 2) continue;
    count += held ? movingSteps(t, from, to - 1) : to - from - 1;
    sum += t[to - 1] - t[from];
  }
  const mean = sum / count;
  if (!(mean > 0)) return { jitter: 0, rounded: false };
  const low = Math.floor(mean / quantum + 1e-9) * quantum;
  const [least, most] = [low - 0.02 * quantum, low + 1.02 * quantum];
  const { isWhole, leastStep, mostStep } = factsOf(t);
  const isForward = isWhole && leastStep > 0;
  const farthest = Math.max(mostStep - mean, mean - leastStep);
  // Where even the farthest step is so near the mean, all lie within, none tells more, and neither does any part.
  const { jitter, changingRate } = settings;
  const isNear = farthest <= 0.999 * Math.min(jitter.note, changingRate.share) * mean;
  if (isForward && quantum > 0 && leastStep > least && mostStep < most && isNear) return { jitter: 0, rounded: false };
  const around = { mean, least, most };
  const { squares, within } = isForward ? spreadOf(t, spans, around) : spreadOfTelling(t, spans, around, held);
  const spread = Math.sqrt(squares / count) / mean;
  if (quantum > 0 && within >= 0.995 * count && (held || isUniform(t, spans, mean, quantum)))
    return { jitter: 0, rounded: spread > settings.jitter.note };
  return { jitter: Math.sqrt(Math.max(0, squares / count - quantum ** 2 / 6)) / mean, rounded: false };
}

/** The spread of the steps that say something of the sampling; the others lie within as well. */
function spreadOfTelling(
  t: Float64Array,
  spans: readonly Span[],
  { mean, least, most }: Around,
  held: boolean,
): Spread {
  let within = 0;
  let squares = 0;
  for (const span of spans) {
    for (let i = span.from + 1; i < span.to; i++) {
      const step = t[i] - t[i - 1];
      const isSilent = saysNothing(t, i, span, held);
      if (!isSilent) squares += (step - mean) * (step - mean);
      if (isSilent || (step > least && step < most)) within++;
    }
  }
  return { squares, within };
}

/** Whether a step says nothing of the sampling: where the clock stood still, and at a stamp that runs back, which is false, or beside it. */
const saysNothing = (t: Float64Array, i: number, { from, to }: Span, held: boolean): boolean =>
  (held && t[i] === t[i - 1]) ||
  t[i] < t[i - 1] ||
  (i > from + 1 && t[i - 1] < t[i - 2]) ||
  (i + 1 < to && t[i + 1] < t[i]);

/** Whether every part of the recording keeps the mean step, as far as its rounding tells: else the rate itself changes. */
function isUniform(t: Float64Array, spans: readonly Span[], mean: number, quantum: number): boolean {
  const block = settings.changingRate.steps;
  for (const { from, to } of spans) {
    for (let i = from; i + block < to; i += block) {
      const off = Math.abs(t[i + block] - t[i] - block * mean);
      if (off > 2 * quantum + settings.changingRate.share * block * mean) return false;
    }
  }
  return true;
}
