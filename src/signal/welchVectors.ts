import type { Stage } from './stage.ts';
import { makeSmoothPlan, oddRadices } from './stockham.ts';
import { rootOfUnity } from './twiddle.ts';
import { welchKernel } from './welchKernel.ts';

interface Kernel {
  readonly memory: WebAssembly.Memory;
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

/** Undefined until first asked for, null where the host has no vectors or forbids compiled code. */
let compiled: WebAssembly.Module | null | undefined;

function kernelModule(): WebAssembly.Module | null {
  if (compiled === undefined) {
    try {
      compiled = new WebAssembly.Module(Uint8Array.from(atob(welchKernel), (letter) => letter.charCodeAt(0)));
    } catch {
      compiled = null;
    }
  }
  return compiled;
}

/** Longest segment for which four work arrays stay a few megabytes. */
const longestSegment = 1 << 15;

/** Samples taken into the kernel's memory at a time, at least. */
const chunkSamples = 1 << 15;

/** Where the kernel's tables and arrays stand in its memory, in bytes. */
interface Layout {
  readonly stages: number;
  readonly shape: number;
  readonly work: number;
  readonly spare: number;
  readonly sums: number;
  readonly power: number;
  readonly samples: number;
  /** Samples that fit at `samples`. */
  readonly room: number;
}

/**
 * Welch's inner loop with vectors of two doubles, four segments at a time, compiled from scripts/wasm/welch.ts. It
 * does what `WelchSum` does in TypeScript, where the host has vectors and the length no prime factor above 13.
 */
export class WelchVectors {
  readonly #kernel: Kernel;
  readonly #layout: Layout;
  readonly #length: number;
  readonly #hop: number;
  readonly #stageCount: number;

  /** The loop for a window and hop, or undefined where it can't be had. */
  static for(shape: Float64Array, hop: number): WelchVectors | undefined {
    const factors = shape.length <= longestSegment ? vectorRadices(shape.length) : undefined;
    const module = factors === undefined ? null : kernelModule();
    return factors === undefined || module === null ? undefined : new WelchVectors(module, shape, hop, factors);
  }

  private constructor(module: WebAssembly.Module, shape: Float64Array, hop: number, factors: readonly number[]) {
    this.#length = shape.length;
    this.#hop = hop;
    this.#stageCount = factors.length;
    this.#kernel = new WebAssembly.Instance(module, {}).exports as unknown as Kernel;
    this.#layout = this.#place(shape, makeSmoothPlan(shape.length, factors).stages);
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
    const chunk = new Float64Array(this.#kernel.memory.buffer, at, room);
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
    const lanes = new Float64Array(this.#kernel.memory.buffer, this.#layout.power, 2 * this.#length);
    for (let k = 0; k < this.#length; k++) power[k] += lanes[2 * k] + lanes[2 * k + 1];
    lanes.fill(0);
  }

  /** Lays out the memory and writes the tables into it. */
  #place(shape: Float64Array, stages: readonly Stage[]): Layout {
    const { memory } = this.#kernel;
    const length = this.#length;
    let end = 1024;
    const take = (bytes: number): number => {
      const at = end;
      // A little apart, so that the arrays do not begin at the same place of their memory pages.
      end += Math.ceil(bytes / 16) * 16 + 256;
      return at;
    };
    const factorsAt = stages.map(({ re }) => take(16 * re.length));
    const rootsAt = stages.map(({ radix }) => take(16 * radix));
    const room = Math.max(chunkSamples, 7 * this.#hop + length);
    const layout: Layout = {
      stages: take(20 * stages.length),
      shape: take(8 * length),
      work: take(32 * length),
      spare: take(32 * length),
      sums: take(64 * 8),
      power: take(16 * length),
      samples: take(8 * room),
      room,
    };
    memory.grow(Math.max(0, Math.ceil((end - memory.buffer.byteLength) / 65536)));
    new Float64Array(memory.buffer, layout.shape, length).set(shape);
    const words = new Int32Array(memory.buffer, layout.stages, 5 * stages.length);
    stages.forEach(({ radix, blocks, stride, re, im }, s) => {
      words.set([radix, blocks, stride, factorsAt[s], rootsAt[s]], 5 * s);
      const factors = new Float64Array(memory.buffer, factorsAt[s], 2 * re.length);
      re.forEach((value, i) => factors.set([value, im[i]], 2 * i));
      const roots = new Float64Array(memory.buffer, rootsAt[s], 2 * radix);
      for (let t = 0; t < radix; t++) roots.set(rootPair(t, radix), 2 * t);
    });
    return layout;
  }
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
  const twos = Math.log2(length / odd.reduce((product, radix) => product * radix, 1));
  return [...Array<number>(Math.floor(twos / 2)).fill(4), ...(twos % 2 === 1 ? [2] : []), ...odd];
}
