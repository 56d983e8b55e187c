import { fft } from './fft.ts';

/**
 * The envelope of a narrow signal: the size of its analytic signal, whose imaginary part is its Hilbert transform
 * (Bendat and Piersol, Random Data, 13.1). The stretch is taken as periodic, so that some periods at its ends are not to
 * be read.
 *
 * @param samples one unbroken stretch, such as a band pass has left
 * @param into receives the envelope, of the same length; may be the samples themselves
 * @returns `into`, in the signal's unit
 */
export function envelope(samples: Float64Array, into: Float64Array): Float64Array {
  const count = samples.length;
  if (count === 0) return into;
  const plan = fft(count);
  const re = Float64Array.from(samples);
  const im = new Float64Array(count);
  plan.forward(re, im);
  // Bins of negative frequencies go, those of positive ones count twice; 0 and half the rate have no other side.
  for (let k = 1; k < count; k++) {
    const factor = 2 * k < count ? 2 : 2 * k === count ? 1 : 0;
    re[k] *= factor;
    im[k] *= factor;
  }
  plan.inverse(re, im);
  for (let n = 0; n < count; n++) into[n] = Math.hypot(re[n], im[n]);
  return into;
}
