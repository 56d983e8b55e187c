import { fft, type Fft } from './fft.ts';
import { addPairPower, pairPlan, type PairPlan } from './pairPower.ts';
import { scratchArrays } from './scratch.ts';
import { partSum, windowed } from './windowed.ts';

/** Welch's inner loop in TypeScript, for hosts without vectors: the sum of the squared transforms of segments. */
export class PlainPower {
  readonly #shape: Float64Array;
  readonly #hop: number;
  readonly #fft: Fft;
  readonly #pairs: PairPlan | undefined;
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
    this.#pairs = pairPlan(shape.length);
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
    const shape = this.#shape;
    const length = shape.length;
    const hop = this.#hop;
    // At half of overlap neighbouring segments share a half, whose sum is taken once.
    const halves = 2 * hop === length;
    let half = halves ? partSum(samples, 0, hop) : 0;
    for (let segment = 0; segment < count; segment += 2) {
      if (segment % 256 === 0) proceed();
      const start = segment * hop;
      if (segment + 1 === count || this.#pairs === undefined) {
        this.#addTransform(samples, start, segment + 1 < count);
        continue;
      }
      let [aSum, bSum] = [half, 0];
      if (halves) {
        const middle = partSum(samples, start + hop, hop);
        half = partSum(samples, start + length, hop);
        aSum += middle;
        bSum = middle + half;
      } else {
        aSum = partSum(samples, start, length);
        bSum = partSum(samples, start + hop, length);
      }
      const a = { start, mean: aSum / length };
      const b = { start: start + hop, mean: bSum / length };
      addPairPower(this.#pairs, samples, a, b, shape, this.#work, this.power);
    }
  }

  /** Adds the segment from `start`, and where there is one the next, by the general transform. */
  #addTransform(samples: Float64Array, start: number, two: boolean): void {
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
