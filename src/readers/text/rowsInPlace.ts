import type { LoopMemory } from '../../numbers/compiled.ts';
import type { Cursor, Plan } from './plan.ts';
import { kindOf, kindOfStamps, loopIn, writeStamps, type Kernel } from './scanVectors.ts';

/** Bytes at the front of a memory of rows that the loops of its two threads work with. */
export const rowsWork = 40_960;

/** Where the second of two threads works. */
const second = 16_384;

/** Zeros behind the last row, at which the loop ends whatever vectors it loads. */
export const zerosBehind = 64;

/**
 * Rows that are read in one call, at most: a host compiles a loop twice, first in haste, and goes over to the better code from one
 * call to the next.
 */
const rowsAtOnce = 2048;

/** Where the columns of a text stand in a memory that threads share. */
export interface ColumnPlaces {
  readonly memory: LoopMemory;
  /** Byte at which the first column begins, and numbers of each. */
  readonly at: number;
  readonly capacity: number;
}

/** This thread's loops, by the buffers of their memories. */
const known = new WeakMap<object, RowsInPlace>();

/** Rows that are read where their bytes stand, and whose numbers go where they stay: nothing is copied. */
export class RowsInPlace {
  readonly #kernel: Kernel;
  readonly #places: ColumnPlaces;
  readonly #bytes: Uint8Array;
  readonly #state: Uint32Array;
  /** Where what this thread works with stands, beyond the places that the loop tells. */
  readonly #own: number;

  /** Has rows in a memory read in place by this thread; false where the loop can't be had. @param isFirst of its two threads */
  static workIn(places: ColumnPlaces, isFirst: boolean): boolean {
    const kernel = loopIn(places.memory, isFirst);
    if (kernel !== undefined) known.set(places.memory.buffer, new RowsInPlace(kernel, places, isFirst ? 0 : second));
    return kernel !== undefined;
  }

  private constructor(kernel: Kernel, places: ColumnPlaces, own: number) {
    const { buffer } = places.memory;
    [this.#kernel, this.#places, this.#own] = [kernel, places, own];
    this.#bytes = new Uint8Array(buffer);
    this.#state = new Uint32Array(buffer, own + kernel.state.value, 2);
    kernel.workAt(own);
  }

  /** The lines in bytes of a memory that is known. */
  static linesIn(bytes: Uint8Array, end: number): number {
    return known.get(bytes.buffer)!.#kernel.countLines(bytes.byteOffset, end);
  }

  /** A scan of bytes, behind which there are zeros; undefined where they or the columns do not stand in a memory that is known. */
  static for(bytes: Uint8Array, plan: Plan): { scan(cursor: Cursor, capacity: number): void } | undefined {
    const here = known.get(bytes.buffer);
    if (here === undefined || !here.#holds(plan)) return undefined;
    here.#begin(plan);
    return { scan: (cursor, capacity) => here.#scan(bytes, plan, cursor, capacity) };
  }

  #holds({ sinks }: Plan): boolean {
    return sinks.every(({ kind, values }) => kind === 'skip' || values.buffer === this.#bytes.buffer);
  }

  #begin({ sinks }: Plan): void {
    const kinds = this.#own + this.#kernel.kinds.value;
    for (const [k, { kind, stamps }] of sinks.entries()) {
      this.#bytes[kinds + k] = kind === 'stamp' ? kindOfStamps : kindOf(kind);
      if (stamps?.steady !== undefined) writeStamps(this.#bytes, this.#own + this.#kernel.stamps.value, stamps.steady);
    }
  }

  /** Reads rows from the cursor on up to the first that is not sure. */
  #scan(bytes: Uint8Array, { sinks, delimiter, decimal, blanks, tail }: Plan, cursor: Cursor, capacity: number): void {
    const { at, capacity: room } = this.#places;
    const [empties, from] = [this.#own + this.#kernel.empties.value, bytes.byteOffset];
    this.#bytes.fill(0, empties, empties + sinks.length);
    const [isBlank, stride] = [blanks ? 1 : 0, 8 * room];
    const kernel = this.#kernel;
    for (let rows = rowsAtOnce, wanted = rows; rows === wanted && cursor.row < capacity;) {
      wanted = Math.min(rowsAtOnce, capacity - cursor.row);
      rows = kernel.readRows(
        from + cursor.at,
        at + 8 * cursor.row,
        wanted,
        sinks.length,
        stride,
        delimiter,
        decimal,
        isBlank,
        tail,
      );
      cursor.at = this.#state[0] - from;
      cursor.row += rows;
      cursor.line += rows + this.#state[1];
    }
    for (const [k, sink] of sinks.entries()) if (this.#bytes[empties + k] !== 0) sink.empty = true;
  }
}
