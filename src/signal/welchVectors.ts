import { CompiledLoop, type CompiledCopy } from '../numbers/compiled.ts';
import type { Stage } from './stage.ts';
import { makeSmoothPlan, oddRadices } from './stockham.ts';
import { rootOfUnity } from './twiddle.ts';
import { welchKernel } from './welchKernel.ts';
import { log2Of } from '../numbers/logarithm.ts';

interface Kernel {
  addQuads(
    samples: number,
    quads: number,
    hop: number,
    length: number,
    shape: number,
    stages: number,
    count: number,
    work: number,
    spare: number,
    sums: number,
    power: number,
  ): void;
}

const compiled = new CompiledLoop(welchKernel);

/** Longest segment for which four work arrays stay a few megabytes. */
const longestSegment = 1 << 15;

/** Samples taken into the kernel's memory at a time, at least. */
const chunkSamples = 1 << 15;

/** Where the kernel's tables and arrays stand in its memory, in bytes. */
interface Layout {
  /** Factors and roots of each pass. */
  readonly factors: readonly number[];
  readonly roots: readonly number[];
  readonly stages: number;
  readonly shape: number;
  readonly work: number;
  readonly spare: number;
  readonly sums: number;
  readonly power: number;
  readonly samples: number;
  /** Samples that fit at `samples`. */
  readonly room: number;
  /** Bytes in all. */
  readonly end: number;
}

/**
 * Welch's inner loop with vectors of two doubles, four segments at a time, compiled from scripts/wasm/welch.ts. It
 * does what `WelchSum` does in TypeScript, where the host has vectors and the length no prime factor above 13.
 */
export class WelchVectors {
  readonly #kernel: Kernel;
  readonly #buffer: ArrayBuffer;
  readonly #layout: Layout;
  readonly #length: number;
  readonly #hop: number;
  readonly #stageCount: number;

  /** The loop for a window and hop, or undefined where it can't be had. */
  static for(shape: Float64Array, hop: number): WelchVectors | undefined {
    const factors = shape.length <= longestSegment ? vectorRadices(shape.length) : undefined;
    if (factors === undefined) return undefined;
    const { stages } = makeSmoothPlan(shape.length, factors);
    const place = layOut(shape.length, hop, stages);
    const copy = compiled.copy(place.end);
    if (copy === undefined) return undefined;
    writeTables(copy.buffer, place, shape, stages);
    return new WelchVectors(copy, place, shape.length, hop, stages.length);
  }

  private constructor(copy: CompiledCopy, place: Layout, length: number, hop: number, stageCount: number) {
    this.#kernel = copy.exports as unknown as Kernel;
    this.#buffer = copy.buffer;
    this.#layout = place;
    this.#length = length;
    this.#hop = hop;
    this.#stageCount = stageCount;
  }

  /**
   * Adds the squares of as many whole fours of segments as there are among the first `count`, and gives the number
   * of segments taken. `proceed` is asked between chunks and may throw.
   */
  add(samples: Float64Array, count: number, proceed: () => void): number {
    const { stages, shape, work, spare, sums, power, samples: at, room } = this.#layout;
    const hop = this.#hop;
    const quadsAtOnce = Math.floor((Math.floor((room - this.#length) / hop) + 1) / 4);
    const quads = Math.floor(count / 4);
    const chunk = new Float64Array(this.#buffer, at, room);
    for (let done = 0; done < quads; done += quadsAtOnce) {
      proceed();
      const now = Math.min(quadsAtOnce, quads - done);
      const start = 4 * done * hop;
      chunk.set(samples.subarray(start, start + (4 * now - 1) * hop + this.#length));
      this.#kernel.addQuads(at, now, hop, this.#length, shape, stages, this.#stageCount, work, spare, sums, power);
    }
    return 4 * quads;
  }

  /** Adds what was summed up to `power`, one number a bin, and begins anew. */
  takePower(power: Float64Array): void {
    const lanes = new Float64Array(this.#buffer, this.#layout.power, 2 * this.#length);
    for (let k = 0; k < this.#length; k++) power[k] += lanes[2 * k] + lanes[2 * k + 1];
    lanes.fill(0);
  }
}

function layOut(length: number, hop: number, stages: readonly Stage[]): Layout {
  let end = 1024;
  const take = (bytes: number): number => {
    const at = end;
    // A little apart, so that the arrays do not begin at the same place of their memory pages.
    end += Math.ceil(bytes / 16) * 16 + 256;
    return at;
  };
  const room = Math.max(chunkSamples, 7 * hop + length);
  const place = {
    factors: stages.map(({ re }) => take(16 * re.length)),
    roots: stages.map(({ radix }) => take(16 * radix)),
    stages: take(20 * stages.length),
    shape: take(8 * length),
    work: take(32 * length),
    spare: take(32 * length),
    sums: take(64 * 8),
    power: take(16 * length),
    samples: take(8 * room),
    room,
  };
  return { ...place, end };
}

function writeTables(buffer: ArrayBuffer, place: Layout, shape: Float64Array, stages: readonly Stage[]): void {
  new Float64Array(buffer, place.shape, shape.length).set(shape);
  const words = new Int32Array(buffer, place.stages, 5 * stages.length);
  stages.forEach(({ radix, blocks, stride, re, im }, s) => {
    words.set([radix, blocks, stride, place.factors[s], place.roots[s]], 5 * s);
    const factors = new Float64Array(buffer, place.factors[s], 2 * re.length);
    re.forEach((value, i) => factors.set([value, im[i]], 2 * i));
    const roots = new Float64Array(buffer, place.roots[s], 2 * radix);
    for (let t = 0; t < radix; t++) roots.set(rootPair(t, radix), 2 * t);
  });
}

/** Cosine and sine of 2 pi t / n. */
function rootPair(t: number, n: number): Float64Array {
  const re = new Float64Array(1);
  const im = new Float64Array(1);
  rootOfUnity(t, n, re, im, 0);
  return Float64Array.of(re[0], -im[0]);
}

/** Radices that the kernel knows, whose product is `length`: 4 and 2, and any odd one up to 13. */
function vectorRadices(length: number): number[] | undefined {
  const odd = oddRadices(length);
  if (odd === undefined) return undefined;
  const twos = log2Of(length / odd.reduce((product, radix) => product * radix, 1));
  return [...Array<number>(Math.floor(twos / 2)).fill(4), ...(twos % 2 === 1 ? [2] : []), ...odd];
}
