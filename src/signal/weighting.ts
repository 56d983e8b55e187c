import { realFft } from './fft.ts';
import { powerOf } from '../numbers/power.ts';

/** Frequency weightings of ISO 2631-1 (wk wd wf wc we wj), ISO 2631-4 (wb), ISO 2631-2 (wm) and ISO 5349-1 (wh). */
export const weightingNames = ['wk', 'wd', 'wf', 'wc', 'we', 'wj', 'wb', 'wm', 'wh'] as const;

export type WeightingName = (typeof weightingNames)[number];

/** Frequencies in Hz and quality factors; a missing pair is a factor of 1. */
interface Weighting {
  readonly highpass: number;
  readonly lowpass: number;
  /** Acceleration-velocity transition: zero f3 (Infinity for none), pole f4, Q4. */
  readonly transition?: readonly [f3: number, f4: number, q4: number];
  /** Upward step: f5, Q5, f6, Q6. */
  readonly step?: readonly [f5: number, q5: number, f6: number, q6: number];
  /** A factor of all frequencies, 1 where left out. */
  readonly gain?: number;
}

/**
 * ISO 2631-1:1997 annex A, table A.1; wb: ISO 2631-4:2001 annex A, and BS 6841:1987 but for its rounding of the gain; wm:
 * ISO 2631-2:2003 annex A; wh: ISO 5349-1:2001 annex A; all as ISO 8041-1 has them.
 */
const weightings: Readonly<Record<WeightingName, Weighting>> = {
  wk: {
    highpass: 0.4,
    lowpass: 100,
    transition: [12.5, 12.5, 0.63],
    step: [2.37, 0.91, 3.35, 0.91],
  },
  wd: { highpass: 0.4, lowpass: 100, transition: [2, 2, 0.63] },
  wf: {
    highpass: 0.08,
    lowpass: 0.63,
    transition: [Infinity, 0.25, 0.86],
    step: [0.0625, 0.8, 0.1, 0.8],
  },
  wc: { highpass: 0.4, lowpass: 100, transition: [8, 8, 0.63] },
  we: { highpass: 0.4, lowpass: 100, transition: [1, 1, 0.63] },
  wj: { highpass: 0.4, lowpass: 100, step: [3.75, 0.91, 5.32, 0.91] },
  wb: { highpass: 0.4, lowpass: 100, transition: [16, 16, 0.55], step: [2.5, 0.9, 4, 0.95], gain: 1.024 },
  wm: {
    highpass: powerOf(10, -0.1),
    lowpass: 100,
    transition: [1 / (0.028 * 2 * Math.PI), 1 / (0.028 * 2 * Math.PI), 0.5],
  },
  wh: { highpass: powerOf(10, 0.8), lowpass: powerOf(10, 3.1), transition: [15.915, 15.915, 0.64] },
};

interface Complex {
  readonly re: number;
  readonly im: number;
}

/**
 * Response H(f) of a weighting, magnitude and phase: band limits (second order, Q = 1/sqrt 2), transition and
 * upward step with s = 2 pi i f, as ISO 2631-1:1997 annex A and ISO 8041-1 define them. At 0 Hz it is 0.
 *
 * @param frequency in Hz, at least 0
 * @returns a complex ratio of amplitudes
 */
export function weightingResponse(name: WeightingName, frequency: number): Complex {
  if (frequency === 0) return { re: 0, im: 0 };
  const { highpass, lowpass, transition, step, gain = 1 } = weightings[name];
  // With s / w = i r, a second-order polynomial 1 + s/(Q w) + (s/w)^2 is (1 - r^2) + i r/Q.
  const second = (corner: number, q: number): Complex => {
    const r = frequency / corner;
    return { re: 1 - r * r, im: r / q };
  };
  // 1 + w/(Q s) + (w/s)^2 is the same polynomial in w/s, whose sign of the imaginary part is turned.
  const r1 = highpass / frequency;
  let response = divide({ re: gain, im: 0 }, { re: 1 - r1 * r1, im: -r1 * Math.SQRT2 });
  response = divide(response, second(lowpass, Math.SQRT1_2));
  if (transition !== undefined) {
    const [f3, f4, q4] = transition;
    response = divide(times(response, { re: 1, im: frequency / f3 }), second(f4, q4));
  }
  if (step !== undefined) {
    const [f5, q5, f6, q6] = step;
    response = divide(times(response, second(f5, q5)), second(f6, q6));
    response = { re: response.re * (f5 / f6) ** 2, im: response.im * (f5 / f6) ** 2 };
  }
  return response;
}

/**
 * Weighted acceleration: the transform of the whole stretch times H(f), transformed back. Unlike a bilinear
 * filter it is exact up to half the rate; the stretch is taken as periodic, so that its ends meet. The mean is removed by
 * the weighting itself.
 *
 * @param samples one unbroken stretch of an acceleration
 * @param rate in Hz
 * @param into receives the result, of the same length; may be the samples themselves
 * @returns `into`, in the signal's unit
 */
export function weighted(name: WeightingName, samples: Float64Array, rate: number, into: Float64Array): Float64Array {
  return inFrequency(samples, into, (k) => weightingResponse(name, (k * rate) / samples.length));
}

/** A weighting counts in full from where its factor is so large a share of its largest (engineering choice). */
const full = 0.9;

const fullFound = new Map<WeightingName, number>();

/** The lowest frequency in Hz that a weighting counts in full, to 2 %. */
export function fullFrom(name: WeightingName): number {
  // Looked for once, and not for each of thousands of runs.
  const found = fullFound.get(name) ?? lowestInFull(name);
  fullFound.set(name, found);
  return found;
}

function lowestInFull(name: WeightingName): number {
  const tried = Array.from({ length: 550 }, (_, k) => 0.05 * powerOf(1.02, k));
  const factors = tried.map((frequency) => {
    const { re, im } = weightingResponse(name, frequency);
    return Math.sqrt(re * re + im * im);
  });
  const largest = Math.max(...factors);
  return tried[factors.findIndex((factor) => factor >= full * largest)];
}

/**
 * Multiplies each bin of the whole stretch's transform by a factor, and transforms back.
 *
 * @param samples one unbroken stretch, taken as periodic
 * @param into receives the result, of the same length; may be the samples themselves
 * @param factor complex, of bin k at k x rate / samples, from 0 to half the rate
 */
export function inFrequency(samples: Float64Array, into: Float64Array, factor: (k: number) => Complex): Float64Array {
  if (samples.length === 0) return into;
  const plan = realFft(samples.length);
  const re = new Float64Array(plan.bins);
  const im = new Float64Array(plan.bins);
  plan.forward(samples, re, im);
  for (let k = 0; k < plan.bins; k++) {
    const by = factor(k);
    const real = re[k] * by.re - im[k] * by.im;
    im[k] = re[k] * by.im + im[k] * by.re;
    re[k] = real;
  }
  plan.inverse(re, im, into);
  return into;
}

function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

function divide(a: Complex, b: Complex): Complex {
  const size = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
}
