import { pass } from './butterflies.ts';
import type { Stage } from './stage.ts';
import { rootOfUnity } from './twiddle.ts';
import { log2Of } from '../numbers/logarithm.ts';

/**
 * The odd radices, in the order of their passes: the 5 comes last, which has a short cut there. For larger primes the
 * convolution of bluestein.ts is faster than their defining sums, with vectors and without.
 */
const oddRadices = [43, 41, 37, 31, 29, 23, 19, 17, 13, 11, 7, 3, 5];

/** A complex transform of a length without prime factors above 43. */
export interface SmoothPlan {
  readonly length: number;
  readonly stages: readonly Stage[];
}

/** What a length is the product of. */
export interface Factors {
  /** In the order of the passes. */
  readonly radices: readonly number[];
  /** The product of the prime factors above 43, for which there is no pass; mostly 1. */
  readonly rest: number;
}

/**
 * Parts a length into radices. Powers of two come first and a 5, or else a power of two, last, since these passes have
 * short cuts.
 *
 * @param length a whole number from 1
 */
export function factorsOf(length: number): Factors {
  let rest = length;
  while (rest % 2 === 0) rest /= 2;
  const twos = powerOfTwo(log2Of(length / rest));
  const odd: number[] = [];
  for (const radix of oddRadices) for (; rest % radix === 0; rest /= radix) odd.push(radix);
  const radices = odd.at(-1) === 5 ? [...twos, ...odd] : [...twos.slice(0, 1), ...odd, ...twos.slice(1)];
  return { radices, rest };
}

/** Radices 8, 4 and 2 whose product is 2^exponent, as few as can be, a 2 only where nothing else will do. */
function powerOfTwo(exponent: number): number[] {
  if (exponent === 1) return [2];
  const fours = exponent % 3 === 0 ? 0 : exponent % 3 === 2 ? 1 : 2;
  return exponent === 0 ? [] : [...Array<number>((exponent - 2 * fours) / 3).fill(8), ...Array<number>(fours).fill(4)];
}

/**
 * The passes of a transform with their factors.
 *
 * @param length points
 * @param factors radices whose product divides the length; what is left of it is up to the caller
 */
export function makeSmoothPlan(length: number, factors: readonly number[]): SmoothPlan {
  const stages: Stage[] = [];
  let size = length;
  let stride = 1;
  for (const radix of factors) {
    const blocks = size / radix;
    const re = new Float64Array(blocks * (radix - 1));
    const im = new Float64Array(blocks * (radix - 1));
    for (let p = 0, at = 0; p < blocks; p++) {
      for (let power = 1; power < radix; power++, at++) rootOfUnity(p * power, size, re, im, at);
    }
    stages.push({ radix, blocks, stride, re, im });
    size = blocks;
    stride *= radix;
  }
  return { length, stages };
}

/**
 * Forward transform X[k] = sum x[n] exp(-2 pi i k n / N) by Stockham's self-sorting passes, which read from
 * one pair of arrays and write to the other (Van Loan 1992, Computational Frameworks for the FFT, 1.7).
 *
 * @param re real parts of the plan's length, overwritten; likewise im
 * @param spareRe room of the same length, overwritten; likewise spareIm
 * @returns whether the result stands in the spare pair
 */
export function transformSmooth(
  plan: SmoothPlan,
  re: Float64Array,
  im: Float64Array,
  spareRe: Float64Array,
  spareIm: Float64Array,
): boolean {
  let inSpare = false;
  for (const stage of plan.stages) {
    if (inSpare) pass(stage, spareRe, spareIm, re, im);
    else pass(stage, re, im, spareRe, spareIm);
    inSpare = !inSpare;
  }
  return inSpare;
}
