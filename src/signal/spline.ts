/**
 * Values of unevenly sampled readings at evenly spaced times, through a natural cubic spline (de Boor, A Practical
 * Guide to Splines, 4). It does not guard against aliasing: give it the readings' own mean rate, and change the rate
 * afterwards with `resampled`.
 *
 * @param times in s, rising
 * @param samples as many readings, at least 2
 * @param rate of the result in Hz; its first sample is at the first reading's time
 * @returns samples up to the last reading's time, in the readings' unit
 * @throws RangeError for fewer than two readings, a rate that is not above 0, and naming the first reading whose time does not rise
 */
export function evenlySampled(times: Float64Array, samples: Float64Array, rate: number): Float64Array {
  const count = times.length;
  if (!(rate > 0 && rate < Infinity)) throw new RangeError(`a rate is above 0 Hz, not ${rate}`);
  if (count < 2) throw new RangeError(tooFew);
  const places = Float64Array.from(
    { length: Math.floor((times[count - 1] - times[0]) * rate + 1e-6) + 1 },
    (_, j) => times[0] + j / rate,
  );
  return splineAt(times, samples, places);
}

const tooFew = 'a spline needs at least two readings, each with its time';

/**
 * Readings at other times, through a natural cubic spline (de Boor, A Practical Guide to Splines, 4).
 *
 * @param times in s, rising
 * @param samples as many readings, at least 2
 * @param at times in s, rising, from the first reading on; what lies after the last is taken to be there
 * @returns one a time, in the readings' unit
 * @throws RangeError for fewer than two readings, and naming the first reading whose time does not rise
 */
export function splineAt(times: Float64Array, samples: Float64Array, at: Float64Array): Float64Array {
  const count = times.length;
  if (samples.length !== count || count < 2) throw new RangeError(tooFew);
  for (let i = 1; i < count; i++) {
    if (!(times[i] > times[i - 1]))
      throw new RangeError(`the time of reading ${i + 1}, ${times[i]} s, does not follow ${times[i - 1]} s`);
  }
  const curvature = naturalCurvature(times, samples);
  const result = new Float64Array(at.length);
  for (let j = 0, i = 0; j < result.length; j++) {
    const t = Math.min(at[j], times[count - 1]);
    while (i < count - 2 && times[i + 1] < t) i++;
    const width = times[i + 1] - times[i];
    const a = (times[i + 1] - t) / width;
    const b = (t - times[i]) / width;
    const bend = ((a * a * a - a) * curvature[i] + (b * b * b - b) * curvature[i + 1]) * (width ** 2 / 6);
    result[j] = a * samples[i] + b * samples[i + 1] + bend;
  }
  return result;
}

/** Second derivatives at the readings, 0 at both ends: a tridiagonal system, solved from front to back and back again. */
function naturalCurvature(times: Float64Array, samples: Float64Array): Float64Array {
  const count = times.length;
  const curvature = new Float64Array(count);
  const ratio = new Float64Array(count);
  for (let i = 1; i + 1 < count; i++) {
    const before = times[i] - times[i - 1];
    const after = times[i + 1] - times[i];
    const turn = 6 * ((samples[i + 1] - samples[i]) / after - (samples[i] - samples[i - 1]) / before);
    const pivot = 2 * (before + after) - before * ratio[i - 1];
    ratio[i] = after / pivot;
    curvature[i] = (turn - before * curvature[i - 1]) / pivot;
  }
  for (let i = count - 2; i > 0; i--) curvature[i] -= ratio[i] * curvature[i + 1];
  return curvature;
}
