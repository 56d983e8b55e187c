import { Cancelled, type CancelCheck } from './cancel.ts';
import { Carry } from './carry.ts';
import { effectiveAverages } from './confidence.ts';
import { PlainPower } from './plainPower.ts';
import { together } from './welchMemory.ts';
import { WelchVectors } from './welchVectors.ts';
import { sumOf, sumOfSquares } from './windows.ts';

export interface WelchOptions {
  /** The window; its length is the segment's length, taken exactly and never padded. */
  readonly shape: Float64Array;
  /** Samples a second, in Hz. */
  readonly rate: number;
  /** Share of a segment that the next one covers again, at least 0 and below 1; 0.5 if not given. */
  readonly overlap?: number;
  readonly cancelled?: CancelCheck;
  /** Whether the compiled loop with vectors may be used where the host has it; true if not given. */
  readonly vectors?: boolean;
}

/** A one-sided density of one signal. Bin k is at k x step; there are floor(L/2)+1 bins. */
export interface Density {
  /** Mean square per Hz in each bin, unit^2/Hz. */
  readonly density: Float64Array;
  /** Bin spacing rate / L, in Hz. */
  readonly step: number;
  /** Samples a segment, L. */
  readonly segmentLength: number;
  /** Samples a second, in Hz. */
  readonly rate: number;
  /** Segments averaged. */
  readonly segments: number;
  /** Effective number of independent averages; twice that is the degrees of freedom. */
  readonly averages: number;
  /** Equivalent noise bandwidth in Hz, which ties the density to the height of a line. */
  readonly noiseBandwidth: number;
}

/**
 * Samples from one segment's start to the next: L - floor(L x overlap).
 *
 * @param segmentLength L in samples
 * @param overlap share of a segment, at least 0 and below 1
 * @throws RangeError for any other overlap
 */
export function hopOf(segmentLength: number, overlap: number): number {
  if (!(overlap >= 0 && overlap < 1)) throw new RangeError(`an overlap is at least 0 and below 1, not ${overlap}`);
  // 0.57 x 100 is a hair below 57 in binary, and must not lose a sample by it.
  return segmentLength - Math.floor(segmentLength * overlap + 1e-9);
}

/** Whole segments of `segmentLength` in a stretch of `samples`, one every `hop`; all in samples. */
export function segmentCount(samples: number, segmentLength: number, hop: number): number {
  return samples < segmentLength ? 0 : Math.floor((samples - segmentLength) / hop) + 1;
}

/**
 * Welch's one-sided density: P[k] = c / (K rate sum w^2) sum |X[k]|^2 over the K segments, X the transform of
 * the windowed segment less its own mean; c is 2, but 1 at 0 and, for even L, at half the rate.
 * Welch 1967, IEEE Trans. Audio Electroacoust. 15.
 *
 * @param stretches unbroken pieces of one signal; no segment reaches across two of them
 * @param options the window, a periodic one, whose length is the segment's; rate in Hz; overlap, half by default
 * @returns unit^2/Hz in floor(L/2) + 1 bins
 * @throws RangeError when no stretch is as long as a segment or a sample is no number; Cancelled when `cancelled` says so
 */
export function welchDensity(stretches: readonly Float64Array[], options: WelchOptions): Density {
  const sum = new WelchSum(options);
  for (const stretch of stretches) sum.addStretch(stretch);
  return sum.density();
}

/**
 * Heights of lines: the peak amplitude that a sine at a bin's centre would have; sqrt(mean |X|^2) x 2 / sum w, the
 * mean taken as power over the segments and the root last (1 in place of 2 at 0 and at half the rate). It is the
 * density seen through the window's noise bandwidth.
 *
 * @param of one-sided density in unit^2/Hz
 * @returns one peak, not r.m.s., a bin, in the signal's unit
 */
export function peakAmplitude(of: Density): Float64Array {
  const { density, noiseBandwidth, segmentLength } = of;
  const last = segmentLength % 2 === 0 ? density.length - 1 : -1;
  return density.map((value, k) => Math.sqrt((k === 0 || k === last ? 1 : 2) * value * noiseBandwidth));
}

/** Sums the squared transforms of a signal's segments, stretch by stretch or block by block. */
export class WelchSum {
  readonly #shape: Float64Array;
  readonly #rate: number;
  readonly #hop: number;
  readonly #cancelled: CancelCheck | undefined;
  readonly #sum: WelchVectors | PlainPower;
  readonly #counts: number[] = [];
  /** Samples of the open stretch that a later segment still needs. */
  readonly #carry = new Carry();
  #openCount = 0;

  constructor({ shape, rate, overlap = 0.5, cancelled, vectors = true }: WelchOptions) {
    if (!(rate > 0 && rate < Infinity)) throw new RangeError(`a rate is above 0 Hz, not ${rate}`);
    this.#shape = shape;
    this.#rate = rate;
    this.#hop = hopOf(shape.length, overlap);
    this.#cancelled = cancelled;
    this.#sum = (vectors ? WelchVectors.for(shape, this.#hop) : undefined) ?? new PlainPower(shape, this.#hop);
  }

  /** Adds an unbroken stretch that stands in memory as a whole. */
  addStretch(samples: Float64Array): void {
    this.endStretch();
    this.#counts.push(this.#addSegments(samples));
  }

  /**
   * Adds the next block of a stretch too long for memory; it goes on until `endStretch`. The density is to the last digit
   * that of `addStretch`.
   */
  addBlock(block: Float64Array): void {
    const length = this.#shape.length;
    const samples = this.#carry.add(block);
    const whole = segmentCount(samples.length, length, this.#hop);
    // As many at a time as are taken together.
    const count = whole - (whole % together);
    if (count > 0) this.#openCount += this.#addSegments(samples.subarray(0, (count - 1) * this.#hop + length));
    this.#carry.keep(count * this.#hop);
  }

  /** Ends the stretch that `addBlock` built: what comes next does not join it. */
  endStretch(): void {
    this.#openCount += this.#addSegments(this.#carry.held);
    if (this.#openCount > 0) this.#counts.push(this.#openCount);
    this.#openCount = 0;
    this.#carry.keep(this.#carry.held.length);
  }

  /** The density of all that was added. */
  density(): Density {
    this.endStretch();
    const length = this.#shape.length;
    const segments = this.#counts.reduce((sum, count) => sum + count, 0);
    if (segments === 0) throw new RangeError(`no stretch is as long as a segment of ${length} samples`);
    const squares = sumOfSquares(this.#shape);
    const { power } = this.#sum;
    // One sample that is no number spoils every bin, the first too.
    if (!Number.isFinite(power[0])) throw new RangeError('the signal holds a sample that is no finite number');
    const density = new Float64Array(Math.floor(length / 2) + 1);
    const scale = 1 / (segments * this.#rate * squares);
    // Two real segments went through each complex transform: their squared spectra are the even part of the sum.
    density[0] = power[0] * scale;
    for (let k = 1; 2 * k < length; k++) density[k] = (power[k] + power[length - k]) * scale;
    if (length % 2 === 0) density[length / 2] = power[length / 2] * scale;
    return {
      density,
      step: this.#rate / length,
      segmentLength: length,
      rate: this.#rate,
      segments,
      averages: effectiveAverages(this.#shape, this.#hop, this.#counts),
      noiseBandwidth: (this.#rate * squares) / sumOf(this.#shape) ** 2,
    };
  }

  /** Adds every whole segment. */
  #addSegments(samples: Float64Array): number {
    const count = segmentCount(samples.length, this.#shape.length, this.#hop);
    const proceed = (): void => {
      if (this.#cancelled?.()) throw new Cancelled();
    };
    if (count > 0) this.#sum.add(samples, count, proceed);
    return count;
  }
}
