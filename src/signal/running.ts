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
