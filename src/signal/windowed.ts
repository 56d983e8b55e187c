/**
 * The segment from sample `start`, less its mean, times the window.
 *
 * @param samples in which the segment lies
 * @param shape the window, as long as the segment
 * @param into receives as many values
 */
export function windowed(samples: Float64Array, start: number, shape: Float64Array, into: Float64Array): void {
  const length = shape.length;
  const mean = partSum(samples, start, length) / length;
  for (let n = 0; n < length; n++) into[n] = (samples[start + n] - mean) * shape[n];
}

/**
 * Sum of samples, by four sums side by side: they do not wait for each other, and round less than one.
 *
 * @param samples of the signal
 * @param start index of the first that is summed
 * @param length how many are
 */
function partSum(samples: Float64Array, start: number, length: number): number {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  const end = start + length;
  let n = start;
  for (; n + 3 < end; n += 4) {
    a += samples[n];
    b += samples[n + 1];
    c += samples[n + 2];
    d += samples[n + 3];
  }
  for (; n < end; n++) a += samples[n];
  return a + b + (c + d);
}
