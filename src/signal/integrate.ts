import { inFrequency } from './weighting.ts';
import { sinOf } from '../numbers/trigonometry.ts';

/** Half of the lowpass's length, in periods of the low cut: so much of each end is not to be read, for each integration. */
const edgePeriods = 1.2;
/** Of its shape 1 + a1 cos + a2 cos about its middle: 0 at both ends, and under 0.4 % from the low cut on. */
const bump = [1.117, 0.117] as const;

/**
 * Velocity (once) or displacement (twice) from acceleration: what is above the low cut, where offset and drift would
 * not swamp the result, divided by 2 pi i f as often as said. The lowpass that is taken out has a finite length (a
 * sum of cosines, Harris 1978, Proc. IEEE 66(1)), so that beside the ends, of which `integrationEdge` tells the
 * length, the result is that of a longer stretch: it is within 0.4 % from the low cut on, 0.8 % twice, and
 * fades to nothing below it.
 *
 * @param samples one unbroken stretch
 * @param rate in Hz
 * @param times 1 or 2
 * @param lowCut in Hz, above 0 and below half the rate
 * @param into receives the result, of which the ends are not to be read; may be the samples themselves
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
  return inFrequency(samples, into, (k) => integralResponse((k * rate) / count, times, lowCut));
}

/** What each end of a stretch loses to an integration, in s. @param lowCut in Hz */
export const integrationEdge = (times: 1 | 2, lowCut: number): number => (times * edgePeriods) / lowCut;

/**
 * The response of an integration, at 0 Hz 0.
 *
 * @param frequency in Hz
 * @param lowCut in Hz
 * @returns a complex factor in s or s^2
 */
function integralResponse(
  frequency: number,
  times: 1 | 2,
  lowCut: number,
): { readonly re: number; readonly im: number } {
  if (frequency === 0) return { re: 0, im: 0 };
  const omega = 2 * Math.PI * frequency;
  const kept = 1 - lowpass((2 * edgePeriods * frequency) / lowCut);
  return times === 1 ? { re: 0, im: -kept / omega } : { re: -((kept / omega) ** 2), im: 0 };
}

/** Transform of the bump at so many periods of its length, 1 at 0. */
const lowpass = (periods: number): number =>
  bump.reduce((sum, a, i) => sum + (a / 2) * (sinc(periods - i - 1) + sinc(periods + i + 1)), sinc(periods));

const sinc = (x: number): number => (x === 0 ? 1 : sinOf(Math.PI * x) / (Math.PI * x));
