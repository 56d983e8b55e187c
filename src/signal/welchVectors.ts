import { planOf } from './anyLength.ts';
import { CompiledLoop, type CompiledCopy } from '../numbers/compiled.ts';
import { Kept } from './kept.ts';
import { MemoryDraft } from './memoryDraft.ts';
import { welchKernel } from './welchKernel.ts';
import { together, welchPlaces, type WelchPlaces } from './welchMemory.ts';

interface Kernel {
  addSegments(plan: number, samples: number, segments: number, hop: number): void;
}

const compiled = new CompiledLoop(welchKernel);

/** Longest segment whose arrays stay a few megabytes, eleven at most, where its length is a prime. */
const longestSegment = 1 << 15;

/** Loops of recent lengths are kept, but only while they stay within this many bytes in all. */
const keptBytes = 1 << 22;

const loops = new Kept(makeLoop, (loop) => loop?.bytes ?? 0, keptBytes);

/**
 * Welch's inner loop with vectors of two doubles, four segments at a time, compiled from scripts/wasm/welch.ts: the sum
 * of the squared transforms of segments. It does what `PlainPower` does in TypeScript, where the host has vectors.
 */
export class WelchVectors {
  readonly #loop: Loop;
  readonly #shape: Float64Array;
  readonly #hop: number;
  readonly #lanes: Float64Array;

  /**
   * The sum, still 0, or undefined where it can't be had.
   *
   * @param shape the window, as long as a segment
   * @param hop samples from one segment's start to the next
   */
  static for(shape: Float64Array, hop: number): WelchVectors | undefined {
    const loop = shape.length > longestSegment ? undefined : loops.of(shape.length);
    return loop === undefined ? undefined : new WelchVectors(loop, shape, hop);
  }

  private constructor(loop: Loop, shape: Float64Array, hop: number) {
    this.#loop = loop;
    this.#shape = shape;
    this.#hop = hop;
    this.#lanes = new Float64Array(2 * shape.length);
  }

  /** Adds the first `count` segments. `proceed` is asked now and then and may throw, upon which none is added. */
  add(samples: Float64Array, count: number, proceed: () => void): void {
    this.#loop.add(samples, count, this.#hop, this.#shape, this.#lanes, proceed);
  }

  /** A sum for each point of the transforms. */
  get power(): Float64Array {
    const power = new Float64Array(this.#shape.length);
    for (let k = 0; k < power.length; k++) power[k] = this.#lanes[2 * k] + this.#lanes[2 * k + 1];
    return power;
  }
}

/** A copy of the kernel for segments of one length, with its tables; all sums share it. */
class Loop {
  readonly #length: number;
  readonly #kernel: Kernel;
  readonly #places: WelchPlaces;
  readonly #shape: Float64Array;
  readonly #lanes: Float64Array;
  readonly #samples: Float64Array;
  /** Of its memory. */
  readonly bytes: number;

  constructor(length: number, { exports, buffer }: CompiledCopy, places: WelchPlaces) {
    this.#length = length;
    this.#kernel = exports as unknown as Kernel;
    this.#places = places;
    this.#shape = new Float64Array(buffer, places.shape, length);
    this.#lanes = new Float64Array(buffer, places.lanes, 2 * length);
    this.#samples = new Float64Array(buffer, places.samples, places.room);
    this.bytes = buffer.byteLength;
  }

  add(
    samples: Float64Array,
    count: number,
    hop: number,
    shape: Float64Array,
    lanes: Float64Array,
    proceed: () => void,
  ): void {
    const fit = Math.floor((this.#samples.length - this.#length) / hop) + 1;
    const atOnce = fit - (fit % together);
    this.#shape.set(shape);
    this.#lanes.set(lanes);
    for (let done = 0; done < count; done += atOnce) {
      proceed();
      const now = Math.min(atOnce, count - done);
      const start = done * hop;
      this.#samples.set(samples.subarray(start, start + (now - 1) * hop + this.#length));
      this.#kernel.addSegments(this.#places.plan, this.#places.samples, now, hop);
    }
    lanes.set(this.#lanes);
  }
}

function makeLoop(length: number): Loop | undefined {
  const draft = new MemoryDraft();
  const places = welchPlaces(draft, planOf(length));
  const copy = compiled.copy(draft.bytes);
  if (copy === undefined) return undefined;
  draft.writeTo(copy.buffer);
  return new Loop(length, copy, places);
}
