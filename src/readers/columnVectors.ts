import { CompiledLoop, onlyCopy, type Address, type LoopMemory } from '../numbers/compiled.ts';
import { columnKernel } from './columnKernel.ts';
import type { Around, Distances, FactsSoFar, NearCounts, Span, Spread, StepBounds, StepSizes } from './plainFacts.ts';

/** The compiled loops, and where their arrays stand in their memory; scripts/wasm/columns.ts says what they hold. */
interface Kernel {
  readonly workAt: (place: number) => void;
  readonly lookAt: (from: number, count: number, before: number) => void;
  readonly countNear: (from: number, count: number, low: number, high: number) => void;
  readonly addSpread: (from: number, count: number, mean: number, least: number, largest: number) => void;
  readonly countSteps: (from: number, count: number, jump: number, half: number, middle: number) => void;
  readonly leastSpan: (from: number, count: number, apart: number) => number;
  readonly pick: (from: number, count: number, apart: number) => void;
  readonly markPlaces: (from: number, count: number, first: number, scale: number) => number;
  readonly clearPlaces: (count: number) => void;
  readonly leastBetween: (count: number, first: number, scale: number) => number;
  readonly facts: Address;
  readonly counts: Address;
  readonly input: Address;
  readonly most: Address;
  readonly places: Address;
}

/** Bytes that the loops need, beside columns that stand in the same memory. */
export const columnWork = 18 << 16;

/** Numbers that are looked at in place in one call, at most. */
const mostInPlace = 1 << 14;

const loop = new CompiledLoop(columnKernel);

/** Loops in memories that hold columns, by the buffers of these. */
const inPlace = new WeakMap<object, ColumnVectors>();

/** Passes over columns with vectors of two numbers, compiled from scripts/wasm/columns.ts: the same bits as of the plain loops. */
export class ColumnVectors {
  readonly #kernel: Kernel;
  /** Where what the loops work with begins. */
  readonly #place: number;
  readonly #numbers: Float64Array;
  readonly #words: Int32Array;

  /** The loops in one memory for all columns of a thread, or undefined where they can't be had. */
  static readonly here = onlyCopy(
    loop,
    columnWork,
    ({ exports, buffer }) => new ColumnVectors(exports as unknown as Kernel, buffer, 0),
  );

  /** The loops for some numbers, without copies of them where they stand in a memory that has loops of its own. */
  static for = ({ buffer }: Float64Array): ColumnVectors | undefined => inPlace.get(buffer) ?? ColumnVectors.here();

  /** Has the numbers in a memory looked at in place, by this thread alone. @param place of `columnWork` bytes that nobody else uses */
  static workIn(memory: LoopMemory, place: number): void {
    const exports = loop.sharing(memory);
    if (exports === undefined) return;
    inPlace.set(memory.buffer, new ColumnVectors(exports as unknown as Kernel, memory.buffer, place));
  }

  private constructor(kernel: Kernel, buffer: ArrayBuffer, place: number) {
    this.#kernel = kernel;
    this.#place = place;
    this.#numbers = new Float64Array(buffer);
    this.#words = new Int32Array(buffer);
    kernel.workAt(place);
  }

  /** As `plainLook` does. */
  look(all: FactsSoFar, values: Float64Array, from: number, to: number): void {
    const { lookAt, facts } = this.#kernel;
    const numbers = this.#numbers;
    const at = (this.#place + facts.value) >> 3;
    numbers.set(all, at);
    this.#each(values, from, to, (place, count, first) => lookAt(place, count, first === 0 ? NaN : values[first - 1]));
    all.set(numbers.subarray(at, at + all.length));
  }

  /** As `plainNear` counts them. */
  nearTo(values: Float64Array, [low, high]: readonly [number, number], distances: Distances): NearCounts {
    const { countNear, facts, counts } = this.#kernel;
    this.#numbers.set(distances, (this.#place + facts.value) >> 3);
    const at = (this.#place + counts.value) >> 2;
    this.#words.fill(0, at, at + 8);
    this.#each(values, 0, values.length, (place, count) => countNear(place, count, low, high));
    return [...this.#words.subarray(at, at + 8)];
  }

  /** As `plainSpread` gives it. */
  spreadOf(values: Float64Array, spans: readonly Span[], { mean, least, most }: Around): Spread {
    const { addSpread, facts } = this.#kernel;
    const at = (this.#place + facts.value) >> 3;
    this.#numbers.fill(0, at, at + 2);
    this.#eachStep(values, spans, (place, count) => addSpread(place, count, mean, least, most));
    return { squares: this.#numbers[at], within: this.#words[2 * at + 2] };
  }

  /** As `plainSteps` counts them. */
  stepsOf(values: Float64Array, spans: readonly Span[], { jump, half, middle }: StepBounds): StepSizes {
    const { countSteps, counts } = this.#kernel;
    const at = (this.#place + counts.value) >> 2;
    this.#words.fill(0, at, at + 4);
    this.#eachStep(values, spans, (place, count) => countSteps(place, count, jump, half, middle));
    const [up, down, large, crossing] = this.#words.subarray(at, at + 4);
    return { up, down, large, crossing };
  }

  /** As `plainLeastSpan` gives it; undefined where rows are too far apart for numbers that have to be copied. */
  leastSpan(values: Float64Array, rows: number): number | undefined {
    const { leastSpan, input, most } = this.#kernel;
    const isHere = this.#holds(values);
    if (!isHere && 2 * rows > most.value) return undefined;
    const atOnce = isHere ? mostInPlace : most.value - rows;
    let least = Infinity;
    for (let first = rows; first < values.length; first += atOnce) {
      const count = Math.min(atOnce, values.length - first);
      // A copy begins with the numbers before.
      if (!isHere) this.#numbers.set(values.subarray(first - rows, first + count), input.value >> 3);
      const place = isHere ? values.byteOffset + 8 * first : input.value + 8 * rows;
      least = Math.min(least, leastSpan(place, count, 8 * rows));
    }
    return least + 0;
  }

  /** As `plainEvery` picks them; undefined of numbers that all would have to be copied. */
  every(values: Float64Array, stride: number): Float64Array | undefined {
    if (!this.#holds(values)) return undefined;
    const { pick, input, most } = this.#kernel;
    const picked = new Float64Array(Math.ceil(values.length / stride));
    const from = (this.#place + input.value) >> 3;
    for (let first = 0; first < picked.length; first += most.value) {
      const count = Math.min(most.value, picked.length - first);
      pick(values.byteOffset + 8 * stride * first, count, 8 * stride);
      picked.set(this.#numbers.subarray(from, from + count), first);
    }
    return picked;
  }

  /** Has numbers looked at that follow another within spans, which stands before them. */
  #eachStep(values: Float64Array, spans: readonly Span[], look: (place: number, count: number) => void): void {
    for (const { from, to } of spans)
      this.#each(values, from + 1, to, (place, count, first) => {
        // A copy lacks the number before its first.
        if (!this.#holds(values)) this.#numbers[(place >> 3) - 1] = values[first - 1];
        look(place, count);
      });
  }

  #holds({ buffer }: Float64Array): boolean {
    return buffer === this.#numbers.buffer;
  }

  /** Has numbers looked at where they stand, or where they were copied to, some at a time. */
  #each(
    values: Float64Array,
    from: number,
    to: number,
    look: (place: number, count: number, first: number) => void,
  ): void {
    const { input, most } = this.#kernel;
    if (this.#holds(values)) {
      for (let first = from; first < to; first += mostInPlace)
        look(values.byteOffset + 8 * first, Math.min(mostInPlace, to - first), first);
      return;
    }
    for (let first = from; first < to; first += most.value) {
      const some = values.subarray(first, Math.min(to, first + most.value));
      this.#numbers.set(some, input.value >> 3);
      look(input.value, some.length, first);
    }
  }

  /**
   * The smallest difference between neighbours of numbers on a grid; NaN where one is on no place of it, undefined where it
   * has too many places.
   * @param first whole number over `scale` that the lowest is, so many of which reach to the highest
   */
  stepOnGrid(values: Float64Array, first: number, count: number, scale: number): number | undefined {
    const { clearPlaces, markPlaces, leastBetween, places } = this.#kernel;
    if (count > columnWork - places.value - 16) return undefined;
    clearPlaces(count);
    let off = 0;
    this.#each(values, 0, values.length, (place, some) => {
      if (off === 0 && markPlaces(place, some, first, scale) === 0) off++;
    });
    return off > 0 ? NaN : leastBetween(count, first, scale);
  }
}
