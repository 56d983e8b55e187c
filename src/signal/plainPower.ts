import { fft, type Fft } from './fft.ts';
import { scratchArrays } from './scratch.ts';
import { windowed } from './windowed.ts';

/** Welch's inner loop in TypeScript, for hosts without vectors: the sum of the squared transforms of segments. */
export class PlainPower {
  readonly #shape: Float64Array;
  readonly #hop: number;
  readonly #fft: Fft;
  readonly #work: readonly Float64Array[];
  /** A sum for each point of the transforms. */
  readonly power: Float64Array;

  /**
   * @param shape the window, as long as a segment
   * @param hop samples from one segment's start to the next
   */
  constructor(shape: Float64Array, hop: number) {
    this.#shape = shape;
    this.#hop = hop;
    this.#fft = fft(shape.length);
    this.#work = scratchArrays(4, shape.length);
    this.power = new Float64Array(shape.length);
  }

  /**
   * Adds the first `count` segments, two to a transform: one as its real part, the next as its imaginary part.
   *
   * @param samples of the signal, in which the segments lie
   * @param proceed is asked now and then, and may throw
   */
  add(samples: Float64Array, count: number, proceed: () => void): void {
    for (let segment = 0; segment < count; segment += 2) {
      if (segment % 256 === 0) proceed();
      this.#addPair(samples, segment * this.#hop, segment + 1 < count);
    }
  }

  /** Adds the segment from `start`, and where there is one the next. */
  #addPair(samples: Float64Array, start: number, two: boolean): void {
    const [re, im, spareRe, spareIm] = this.#work;
    windowed(samples, start, this.#shape, re);
    if (two) windowed(samples, start + this.#hop, this.#shape, im);
    else im.fill(0);
    if (this.#fft.forwardBetween(re, im, spareRe, spareIm)) addPower(spareRe, spareIm, this.power);
    else addPower(re, im, this.power);
  }
}

function addPower(re: Float64Array, im: Float64Array, power: Float64Array): void {
  for (let k = 0; k < power.length; k++) power[k] += re[k] * re[k] + im[k] * im[k];
}
