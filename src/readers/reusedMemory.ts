import { sharedMemory, type LoopMemory } from '../numbers/compiled.ts';
import { columnWork, ColumnVectors } from './columnVectors.ts';

/** Bytes that are handed out again; what is asked for beyond is fresh memory, so that a large recording goes as it came. */
const most = 48e6;
/** How many times as large as what is asked for the memory may be that is handed out. */
const widest = 4;

/** Bytes of numbers that stand where the compiled loops look at them in place; only what is written to is taken from the system. */
const inPlace = 24e6;

/** Memory that nobody uses, and what was handed out since it was last taken back. */
interface Reused {
  /** Made when it is first asked for; null where the host has no room for it. */
  numbers: Numbers | null | undefined;
  readonly free: ArrayBuffer[];
  readonly taken: ArrayBuffer[];
  /** Of both together. */
  bytes: number;
}

/** Memory for numbers, handed out from its front on. */
interface Numbers {
  readonly memory: LoopMemory;
  used: number;
}

let reused: Reused | undefined;

/**
 * Hands memory out again from now on: memory that was written to before is far quicker than fresh memory, and leaves less
 * to be collected. For a thread that reads one recording at a time and keeps nothing of it.
 */
export function reuseMemory(): void {
  reused ??= { numbers: undefined, free: [], taken: [], bytes: 0 };
}

function numbersInPlace(): Numbers | null {
  try {
    const memory = sharedMemory(columnWork + inPlace);
    ColumnVectors.workIn(memory, 0);
    return { memory, used: columnWork };
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** Takes back all that was handed out: nobody may look at it any more. */
export function takeMemoryBack(): void {
  // What was used last is the likeliest to fit.
  if (reused !== undefined) reused.free.unshift(...reused.taken.splice(0));
  if (reused?.numbers) reused.numbers.used = columnWork;
}

/** Room for so many numbers, in which anything may stand. */
export function memoryForNumbers(count: number): Float64Array {
  const numbers = reused && (reused.numbers === undefined ? (reused.numbers = numbersInPlace()) : reused.numbers);
  if (numbers && numbers.used + 8 * count <= columnWork + inPlace) {
    numbers.used += 8 * count;
    return new Float64Array(numbers.memory.buffer, numbers.used - 8 * count, count);
  }
  const memory = memoryOf(8 * count);
  return memory === undefined ? new Float64Array(count) : new Float64Array(memory, 0, count);
}

/** A copy of bytes. */
export function copyInMemory(bytes: Uint8Array): Uint8Array {
  const memory = memoryOf(bytes.length);
  if (memory === undefined) return bytes.slice();
  const copy = new Uint8Array(memory, 0, bytes.length);
  copy.set(bytes);
  return copy;
}

function memoryOf(bytes: number): ArrayBuffer | undefined {
  if (reused === undefined) return undefined;
  const { free, taken } = reused;
  const found = free.findIndex(({ byteLength }) => byteLength >= bytes && byteLength <= widest * bytes);
  if (found >= 0) taken.push(...free.splice(found, 1));
  else {
    // A little more, so that the next recording fits that is a little longer.
    const fresh = 8 * Math.ceil((1.05 * bytes) / 8);
    // What fits nothing any more makes way.
    while (reused.bytes + fresh > most && free.length > 0) reused.bytes -= free.pop()!.byteLength;
    if (reused.bytes + fresh > most) return undefined;
    reused.bytes += fresh;
    taken.push(new ArrayBuffer(fresh));
  }
  return taken[taken.length - 1];
}
