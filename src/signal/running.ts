/** Running r.m.s. of a stretch. */
export interface Running {
  /** Value i is of the `length` samples that end with sample length - 1 + i. */
  readonly values: Float64Array;
  /** Samples averaged. */
  readonly length: number;
  /** Largest value, and the index of the sample with which its span ends. */
  readonly maximum: number;
  readonly maximumAt: number;
}

/**
 * Running r.m.s. with linear averaging, sqrt((1/tau) int a^2) over the tau seconds that end at each sample; its
 * maximum with tau = 1 s of weighted acceleration is the MTVV (ISO 2631-1:1997, 6.3.1).
 *
 * Sums are built up afresh in every span, so that a loud moment leaves no rounding behind in the quiet after it.
 *
 * @param samples one unbroken stretch
 * @param length samples a span, round(tau x rate), at least 1 and at most all of the stretch
 * @param mean what is taken from each sample first: the signal's mean where that has not been removed
 * @returns values in the signal's unit, one for each whole span
 * @throws RangeError for a span that does not fit
 */
export function runningRms(samples: Float64Array, length: number, mean = 0): Running {
  const count = samples.length;
  if (!(Number.isInteger(length) && length >= 1 && length <= count)) {
    throw new RangeError(
      `a running r.m.s. over ${length} samples needs a stretch at least as long, not one of ${count}`,
    );
  }
  const values = new Float64Array(count - length + 1);
  const toEnd = new Float64Array(length);
  let maximum = -1;
  let maximumAt = 0;
  for (let from = 0; from < values.length; from += length) {
    // A span that begins in this block is the block's end from there on and the next block's beginning.
    let sum = 0;
    for (let i = length - 1; i >= 0; i--) {
      sum += (samples[from + i] - mean) ** 2;
      toEnd[i] = sum;
    }
    sum = 0;
    for (let i = 0; i < length && from + i < values.length; i++) {
      if (i > 0) sum += (samples[from + length + i - 1] - mean) ** 2;
      const value = Math.sqrt((toEnd[i] + sum) / length);
      values[from + i] = value;
      if (value > maximum) {
        maximum = value;
        maximumAt = from + i + length - 1;
      }
    }
  }
  return { values, length, maximum, maximumAt };
}

/** Running r.m.s. of a stretch that was not sampled evenly; value i is of the span that ends with sample begin + i. */
export interface UnevenRunning extends Omit<Running, 'length'> {
  readonly begin: number;
}

/**
 * Index of the sample with which the first whole span ends of samples that were not taken evenly; -1 where there is none.
 * @param times when the samples were taken, in s, rising
 * @param tau length of the span in s
 * @param step mean step between samples in s
 */
export const firstWhole = (times: Float64Array, tau: number, step: number): number =>
  times.findIndex((time) => time - times[0] >= tau - 1.001 * step);

/**
 * Running r.m.s. of samples that were not taken evenly: at each sample the mean square of those of the tau seconds that
 * end with it, t - tau < t_i <= t, each counted once. Of evenly taken samples it is that of `runningRms`. Sums are built
 * up afresh as there.
 *
 * @param samples one unbroken stretch
 * @param times of the samples in s, never falling
 * @param tau in s
 * @param step mean step between samples in s: the first whole span ends that much less than tau after the first sample
 * @param mean what is taken from each sample first
 * @returns values in the signal's unit, and the index of the sample with which the first span ends; none where the
 * stretch is shorter than a span
 */
export function runningRmsAt(
  samples: Float64Array,
  times: Float64Array,
  { tau, step, mean = 0 }: { readonly tau: number; readonly step: number; readonly mean?: number },
): UnevenRunning {
  const count = samples.length;
  const begin = firstWhole(times, tau, step);
  const values = new Float64Array(begin < 0 ? 0 : count - begin);
  const toEnd = new Float64Array(count);
  let [maximum, maximumAt] = [-1, -1];
  // Sums to the end of a block stand for what a span holds of it; `ahead` is the sum of what it holds beyond.
  let [first, blockEnd, ahead] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    ahead += (samples[i] - mean) ** 2;
    while (times[first] <= times[i] - tau + 1e-3 * step) first++;
    if (first >= blockEnd) {
      let sum = 0;
      for (let j = i; j >= first; j--) toEnd[j] = sum += (samples[j] - mean) ** 2;
      blockEnd = i + 1;
      ahead = 0;
    }
    if (begin < 0 || i < begin) continue;
    const value = Math.sqrt((toEnd[first] + ahead) / (i - first + 1));
    values[i - begin] = value;
    if (value > maximum) [maximum, maximumAt] = [value, i];
  }
  return { values, begin, maximum, maximumAt };
}
