import { inFrequency } from './weighting.ts';

/**
 * Velocity (once) or displacement (twice) from acceleration: each bin of the whole stretch's transform is divided by
 * (2 pi i f) as often as said; below the low cut, where offset and drift would swamp the result, it is 0.
 *
 * @param samples one unbroken stretch, taken as periodic
 * @param rate in Hz
 * @param times 1 or 2
 * @param lowCut in Hz, above 0 and below half the rate: bins below it are left out
 * @param into receives the result; may be the samples themselves
 * @returns `into`, in the signal's unit times s or s^2
 * @throws RangeError for a low cut out of range
 */
export function integrate(
  samples: Float64Array,
  rate: number,
  times: 1 | 2,
  lowCut: number,
  into: Float64Array,
): Float64Array {
  if (!(lowCut > 0 && lowCut < rate / 2)) {
    throw new RangeError(
      `the low cut of an integration lies above 0 and below half the rate, ${rate / 2} Hz; not at ${lowCut} Hz`,
    );
  }
  const count = samples.length;
  return inFrequency(samples, into, (k) => {
    const frequency = (k * rate) / count;
    if (frequency < lowCut) return { re: 0, im: 0 };
    const omega = 2 * Math.PI * frequency;
    return times === 1 ? { re: 0, im: -1 / omega } : { re: -1 / omega ** 2, im: 0 };
  });
}
