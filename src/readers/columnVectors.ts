import { CompiledLoop, onlyCopy, type Address } from '../numbers/compiled.ts';
import { columnKernel } from './columnKernel.ts';
import type { Around, Distances, FactsSoFar, NearCounts, Span, Spread } from './plainFacts.ts';

/** The compiled loops, and where their arrays stand in their memory; scripts/wasm/columns.ts says what they hold. */
interface Kernel {
  readonly lookAt: (count: number) => void;
  readonly countNear: (count: number, low: number, high: number) => void;
  readonly addSpread: (count: number, mean: number, least: number, largest: number) => void;
  readonly markPlaces: (count: number, first: number, scale: number) => number;
  readonly leastBetween: (count: number, first: number, scale: number) => number;
  readonly facts: Address;
  readonly counts: Address;
  readonly input: Address;
  readonly most: Address;
  readonly places: Address;
}

/** One fixed memory for all columns of a thread. */
const memoryBytes = 14 << 16;

/** Passes over columns with vectors of two numbers, compiled from scripts/wasm/columns.ts: the same bits as of the plain loops. */
export class ColumnVectors {
  readonly #kernel: Kernel;
  readonly #numbers: Float64Array;
  readonly #words: Int32Array;
  readonly #bytes: Uint8Array;

  /** The loops, or undefined where they can't be had. */
  static readonly here = onlyCopy(
    new CompiledLoop(columnKernel),
    memoryBytes,
    ({ exports, buffer }) => new ColumnVectors(exports as unknown as Kernel, buffer),
  );

  private constructor(kernel: Kernel, buffer: ArrayBuffer) {
    this.#kernel = kernel;
    this.#numbers = new Float64Array(buffer);
    this.#words = new Int32Array(buffer);
    this.#bytes = new Uint8Array(buffer);
  }

  /** As `plainLook` does. */
  look(all: FactsSoFar, values: Float64Array, from: number, to: number): void {
    const { lookAt, facts, input, most } = this.#kernel;
    const numbers = this.#numbers;
    const [at, before] = [facts.value >> 3, (input.value >> 3) - 1];
    numbers.set(all, at);
    for (let first = from; first < to; first += most.value) {
      const count = Math.min(this.#hold(values, first), to - first);
      numbers[before] = first === 0 ? NaN : values[first - 1];
      lookAt(count);
    }
    all.set(numbers.subarray(at, at + all.length));
  }

  /** As `plainNear` counts them. */
  nearTo(values: Float64Array, [low, high]: readonly [number, number], distances: Distances): NearCounts {
    const { countNear, facts, counts, most } = this.#kernel;
    this.#numbers.set(distances, facts.value >> 3);
    const at = counts.value >> 2;
    this.#words.fill(0, at, at + 8);
    for (let first = 0; first < values.length; first += most.value) countNear(this.#hold(values, first), low, high);
    return [...this.#words.subarray(at, at + 8)];
  }

  /** As `plainSpread` gives it. */
  spreadOf(values: Float64Array, spans: readonly Span[], { mean, least, most }: Around): Spread {
    const { addSpread, facts, input, most: room } = this.#kernel;
    const [at, before] = [facts.value >> 3, (input.value >> 3) - 1];
    this.#numbers.fill(0, at, at + 2);
    for (const { from, to } of spans)
      for (let first = from + 1; first < to; first += room.value) {
        const count = Math.min(this.#hold(values, first), to - first);
        this.#numbers[before] = values[first - 1];
        addSpread(count, mean, least, most);
      }
    return { squares: this.#numbers[at], within: this.#words[2 * at + 2] };
  }

  /** Takes numbers into the memory, as many as there are and have room; gives how many. */
  #hold(values: Float64Array, first: number): number {
    const { input, most } = this.#kernel;
    const some = values.subarray(first, first + most.value);
    this.#numbers.set(some, input.value >> 3);
    return some.length;
  }

  /**
   * The smallest difference between neighbours of numbers on a grid; NaN where one is on no place of it, undefined where it
   * has too many places.
   * @param first whole number over `scale` that the lowest is, so many of which reach to the highest
   */
  stepOnGrid(values: Float64Array, first: number, count: number, scale: number): number | undefined {
    const { markPlaces, leastBetween, most, places } = this.#kernel;
    if (count > this.#bytes.length - places.value - 16) return undefined;
    this.#bytes.fill(0, places.value, places.value + count + 16);
    for (let from = 0; from < values.length; from += most.value)
      if (markPlaces(this.#hold(values, from), first, scale) === 0) return NaN;
    return leastBetween(count, first, scale);
  }
}
