import type { Finding } from '../recording.ts';
import { factsOf, stepsOf } from '../columnFacts.ts';
import type { Span, StepBounds, StepSizes } from '../plainFacts.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { converterStep, measured, timeSpans, type Check, type CheckedChannel, type CheckedRun } from './checked.ts';

/**
 * Counts that overflow and go on at the other end of the range: jumps by most of it between two samples, where the reading, with
 * the jump taken out, goes on as it did. Told only where nothing else looks so: the ends are those of a converter, jumps go
 * both ways, hardly a step is half as large, and the signal crosses the middle of the range without a jump as well.
 */
export const wrapping: Check = (run) =>
  measured(run).flatMap((channel) => {
    const jumps = mayWrap(channel) ? jumpsOf(run, channel.samples) : undefined;
    return jumps === undefined || !isOfConverter(channel.samples) ? [] : [wrappedAt(run, channel, jumps)];
  });

/** Whether a channel jumps by so much of its range both up and down that its counts may overflow. */
export function mayWrap({ samples }: CheckedChannel): boolean {
  const { isWhole, low, high, leastStep, mostStep } = factsOf(samples);
  const least = settings.wrapping.jump * (high - low);
  return isWhole && high > low && mostStep > least && -leastStep > least;
}

/** Rows behind which a channel jumps as counts do that overflow, in order; undefined where its jumps are other ones. */
function jumpsOf({ stretches }: CheckedRun, samples: Float64Array): number[] | undefined {
  const { low, high } = factsOf(samples);
  const { jump, half, fewest, many, goesOn, oneWay, crossings } = settings.wrapping;
  const range = high - low;
  const middle = low + range / 2;
  const sizes = sizesUnlessLarge(samples, stretches, { jump: jump * range, half: half * range, middle });
  if (sizes === undefined) return undefined;
  const { up, down, crossing } = sizes;
  const count = up + down;
  if (count < fewest || count > many * samples.length) return undefined;
  if (Math.min(up, down) < oneWay * count || crossing < crossings * count) return undefined;
  const jumps: number[] = [];
  let on = 0;
  /** The step behind a row with the jump over the range taken out of it, or 0 beyond the ends of a stretch. */
  const stepAt = (i: number, from: number, to: number): number => {
    if (i < from || i + 1 >= to) return 0;
    const step = samples[i + 1] - samples[i];
    return Math.abs(step) > jump * range ? step - Math.sign(step) * range : step;
  };
  for (const { from, to } of stretches) {
    for (let i = from; i + 1 < to; i++) {
      const step = samples[i + 1] - samples[i];
      if (!(Math.abs(step) > jump * range)) continue;
      jumps.push(i);
      // Counts that go up past the top jump down, and are taken on up before the jump and behind it.
      if (Math.sign(step) * (stepAt(i - 1, from, to) + stepAt(i + 1, from, to)) < 0) on++;
    }
  }
  return on < goesOn * count ? undefined : jumps;
}

/** The sizes of all steps; undefined as soon as too many are large, however many of the rest are jumps, which are never more than may be. */
function sizesUnlessLarge(
  samples: Float64Array,
  stretches: readonly Span[],
  bounds: StepBounds,
): StepSizes | undefined {
  const { between, many } = settings.wrapping;
  let left = stretches.reduce((sum, { from, to }) => sum + Math.max(0, to - from - 1), 0);
  let [up, down, large, crossing] = [0, 0, 0, 0];
  for (const { spans, count } of someSteps(stretches)) {
    const more = stepsOf(samples, spans, bounds);
    [up, down, large, crossing] = [up + more.up, down + more.down, large + more.large, crossing + more.crossing];
    left -= count;
    if (large > between * Math.min(up + down + left, many * samples.length)) return undefined;
  }
  return { up, down, large, crossing };
}

/** Steps that are counted before it is asked whether the rest can change the answer. */
const atOnce = 1 << 16;

/** The steps of stretches, so many at once: a part begins with the row that the one before ends with. */
function* someSteps(
  stretches: readonly Span[],
): Generator<{ readonly spans: readonly Span[]; readonly count: number }> {
  let [spans, count]: [Span[], number] = [[], 0];
  for (const { from, to } of stretches) {
    for (let at = from; at + 1 < to;) {
      const last = Math.min(to - 1, at + atOnce - count);
      spans.push({ from: at, to: last + 1 });
      count += last - at;
      at = last;
      if (count < atOnce) continue;
      yield { spans, count };
      [spans, count] = [[], 0];
    }
  }
  if (count > 0) yield { spans, count };
}

/** Whether the ends are those of a range of bits: as many levels as bits can tell, or alike on either side of zero. */
function isOfConverter(samples: Float64Array): boolean {
  const { low, high } = factsOf(samples);
  const { ends, fewestLevels } = settings.wrapping;
  if (Math.abs(low + high) <= ends * (high - low)) return true;
  const levels = (high - low) / converterStep(samples) + 1;
  let all: number = fewestLevels;
  while (all < levels) all *= 2;
  return levels >= (1 - ends) * all;
}

function wrappedAt(run: CheckedRun, { name, samples, unit }: CheckedChannel, jumps: readonly number[]): Finding {
  const { low, high } = factsOf(samples);
  const spans = timeSpans(
    run,
    jumps.map((row) => ({ from: row, to: row + 2 })),
  );
  const basis = { value: jumps.length, threshold: settings.wrapping.fewest, channel: name, spans };
  return finding('wrapped', 'fault', { channel: name, unit, jumps: jumps.length, low, high }, basis);
}
