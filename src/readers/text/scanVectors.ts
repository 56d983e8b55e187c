import { CompiledLoop, onlyCopy, type Address, type CompiledCopy, type LoopMemory } from '../../numbers/compiled.ts';
import type { Cursor, Plan } from './plan.ts';
import { scanKernel } from './scanKernel.ts';
import type { SinkKind } from './sink.ts';
import type { SteadyStamp } from './stampForm.ts';
import { steadyStamp } from './steadyStamp.ts';

/** The compiled loop, and where its tables and arrays stand in its memory; scripts/wasm/scan.ts says what they hold. */
export interface Kernel {
  workAt(place: number): void;
  readRows(
    from: number,
    target: number,
    rows: number,
    columns: number,
    stride: number,
    delimiter: number,
    decimal: number,
    blanks: number,
    tail: number,
  ): number;
  countLines(from: number, count: number): number;
  areAscii(count: number): number;
  readonly shuffles: Address;
  readonly unmarked: Address;
  readonly powers: Address;
  readonly fives: Address;
  readonly state: Address;
  readonly stamps: Address;
  readonly kinds: Address;
  readonly empties: Address;
  readonly input: Address;
  readonly output: Address;
}

/** One fixed memory for all files: tables, bytes to read and what was read of them. */
const memoryBytes = 1 << 20;

/** Bytes taken into the memory at a time; together with what is read of them they fit a processor's second cache. */
const room = 1 << 16;

/** Zeros behind the bytes, at which every row ends that is cut there, whatever vectors are loaded. */
const padding = 32;

/** Rows after which the columns are copied out, at most. */
const mostRows = 4096;

/** Bytes left in the memory below which a row is more likely cut than odd. */
const tailBytes = 2048;

/** The loop and the parts of its memory that are written and read here. */
interface Loop {
  readonly kernel: Kernel;
  readonly bytes: Uint8Array;
  readonly state: Uint32Array;
  readonly output: Float64Array;
  readonly places: Int32Array;
  /** Whether the tables are there, which rows alone need. */
  hasTables: boolean;
}

/** One for all files of a thread. */
const compiled = new CompiledLoop(scanKernel);
const only = onlyCopy(compiled, memoryBytes, loopOf);

function loopOf({ exports, buffer }: CompiledCopy): Loop {
  const kernel = exports as unknown as Kernel;
  const bytes = new Uint8Array(buffer);
  const output = kernel.output.value;
  return {
    ...{ kernel, bytes },
    state: new Uint32Array(buffer, kernel.state.value, 2),
    output: new Float64Array(buffer, output, (memoryBytes - output) / 8),
    places: new Int32Array(buffer, output, (memoryBytes - output) / 4),
    hasTables: false,
  };
}

function writeTables(kernel: Kernel, buffer: ArrayBuffer): void {
  writeShuffles(new Uint8Array(buffer), kernel.shuffles.value);
  const powers = Array.from({ length: 23 }, (_, n) => Number(`1e${n}`));
  new Float64Array(buffer, kernel.powers.value, 23).set(powers);
  new Float64Array(buffer, kernel.unmarked.value, 1).set([1]);
  writeFives(new BigUint64Array(buffer, kernel.fives.value, 2 * fivesCount));
}

/**
 * The loop in a memory that threads share, of which it needs the first 32 KiB; undefined where it can't be had.
 * @param isFirst of two threads; its tables are those of both
 */
export function loopIn(memory: LoopMemory, isFirst: boolean): Kernel | undefined {
  const kernel = compiled.sharing(memory) as unknown as Kernel | undefined;
  if (isFirst && kernel !== undefined) writeTables(kernel, memory.buffer);
  return kernel;
}

/**
 * Reads rows with vectors of 16 bytes, compiled from scripts/wasm/scan.ts: each row to the bit as `plainScan` does, or
 * not at all. All of a thread share one memory, so that one scan is done before the next begins.
 */
export class ScanVectors {
  readonly #kernel: Kernel;
  readonly #bytes: Uint8Array;
  readonly #state: Uint32Array;
  readonly #output: Float64Array;
  readonly #places: Int32Array;
  readonly #source: Uint8Array;
  readonly #end: number;
  readonly #plan: Plan;
  /** The columns of texts, which are told by their place. */
  readonly #texts: number[];
  /** The column of stamps that the loop itself may read. */
  readonly #stamps: number;
  /** Which bytes of the source are in the memory. */
  #from = 0;
  #to = 0;

  /** Whether no byte has its highest bit set; undefined where the loop can't be had. */
  static areAscii(bytes: Uint8Array): boolean | undefined {
    const loop = only();
    if (loop === undefined) return undefined;
    const { kernel, bytes: memory } = loop;
    const input = kernel.input.value;
    for (let from = 0; from < bytes.length; from += room) {
      const some = bytes.subarray(from, from + room);
      memory.set(some, input);
      memory.fill(0, input + some.length, input + some.length + padding);
      if (kernel.areAscii(some.length) === 0) return false;
    }
    return true;
  }

  /** A scan of bytes up to `end`, or undefined where the loop can't be had. */
  static for(bytes: Uint8Array, end: number, plan: Plan): ScanVectors | undefined {
    const loop = only();
    if (loop === undefined) return undefined;
    if (!loop.hasTables) writeTables(loop.kernel, loop.bytes.buffer as ArrayBuffer);
    loop.hasTables = true;
    return new ScanVectors(loop, bytes, end, plan);
  }

  private constructor({ kernel, bytes, state, output, places }: Loop, source: Uint8Array, end: number, plan: Plan) {
    [this.#kernel, this.#bytes, this.#state, this.#output, this.#places] = [kernel, bytes, state, output, places];
    [this.#source, this.#end, this.#plan] = [source, end, plan];
    this.#texts = plan.sinks.flatMap(({ kind }, k) => (kind === 'number' || kind === 'skip' ? [] : [k]));
    for (const [k, { kind }] of plan.sinks.entries()) bytes[kernel.kinds.value + k] = kindOf(kind);
    this.#stamps = mayHoldStamps(plan) ? plan.sinks.findIndex(({ kind }) => kind === 'stamp') : -1;
    this.#settleStamps();
  }

  /** Has the loop read the stamps once it is known how they are spelt. */
  #settleStamps(): void {
    const steady = this.#plan.sinks.at(this.#stamps)?.stamps?.steady;
    const at = this.#texts.indexOf(this.#stamps);
    if (steady === undefined || at < 0) return;
    this.#texts.splice(at, 1);
    this.#bytes[this.#kernel.kinds.value + this.#stamps] = kindOfStamps;
    writeStamps(this.#bytes, this.#kernel.stamps.value, steady);
  }

  /** Looks how the stamps are spelt, by one that was read. */
  #lookAtStamp(from: number, to: number): void {
    const reader = this.#plan.sinks[this.#stamps].stamps!;
    reader.steady = steadyStamp(reader, String.fromCharCode(...this.#source.subarray(from, Math.min(to, from + 64))));
  }

  /** Reads rows from the cursor on, as many as there are and the sinks have room for, up to the first that is not sure. */
  scan(cursor: Cursor, capacity: number): void {
    const { sinks } = this.#plan;
    const stride = Math.min(mostRows, Math.floor(this.#output.length / sinks.length) - padding) + 8;
    while (cursor.at < this.#end && cursor.row < capacity) {
      const wanted = Math.min(stride - 8, capacity - cursor.row);
      this.#hold(cursor.at);
      const found = this.#read(cursor.at, wanted, stride);
      const rows = this.#takeTexts(cursor.row, found, stride);
      // Reading fewer rows once more tells where they end.
      if (rows < found) this.#read(cursor.at, rows, stride);
      this.#takeNumbers(cursor.row, rows, stride);
      this.#settleStamps();
      cursor.at = this.#from + this.#state[0] - this.#kernel.input.value;
      cursor.row += rows;
      cursor.line += rows + this.#state[1];
      const isCut = rows === found && this.#to < this.#end && this.#to - cursor.at < tailBytes;
      if (rows === 0 || (rows < wanted && !isCut)) return;
    }
  }

  /** Takes bytes from `at` on into the memory, unless enough of them are there. */
  #hold(at: number): void {
    const isHeld = at >= this.#from && at < this.#to && (this.#to === this.#end || this.#to - at >= tailBytes);
    if (isHeld) return;
    this.#from = at;
    this.#to = Math.min(this.#end, at + room);
    const input = this.#kernel.input.value;
    this.#bytes.set(this.#source.subarray(at, this.#to), input);
    const behind = input + this.#to - at;
    this.#bytes.fill(0, behind, behind + padding);
  }

  #read(at: number, rows: number, stride: number): number {
    const { delimiter, decimal, blanks, tail, sinks } = this.#plan;
    const { input, output, empties } = this.#kernel;
    this.#bytes.fill(0, empties.value, empties.value + sinks.length);
    const from = input.value + at - this.#from;
    return this.#kernel.readRows(
      from,
      output.value,
      rows,
      sinks.length,
      8 * stride,
      delimiter,
      decimal,
      blanks ? 1 : 0,
      tail,
    );
  }

  /** Hands texts to their sinks, row by row; gives the number of rows before the first with one that is not taken. */
  #takeTexts(first: number, rows: number, stride: number): number {
    const { sinks } = this.#plan;
    if (this.#texts.length === 0) return rows;
    const start = this.#from - this.#kernel.input.value;
    for (let row = 0; row < rows; row++) {
      for (const k of this.#texts) {
        const at = 2 * (k * stride + row);
        const [from, to] = [this.#places[at], this.#places[at + 1]];
        if (!sinks[k].take(this.#source, start + from, start + to, first + row)) return row;
        if (k === this.#stamps && row === 0) this.#lookAtStamp(start + from, start + to);
      }
    }
    return rows;
  }

  #takeNumbers(first: number, rows: number, stride: number): void {
    const { sinks } = this.#plan;
    for (const [k, sink] of sinks.entries()) {
      const kind = this.#bytes[this.#kernel.kinds.value + k];
      if (kind !== 0 && kind !== kindOfStamps) continue;
      sink.values.set(this.#output.subarray(k * stride, k * stride + rows), first);
    }
    const empties = this.#kernel.empties.value;
    for (const [k, sink] of sinks.entries()) if (this.#bytes[empties + k] !== 0) sink.empty = true;
  }
}

/** As the loop counts them: numbers, what is passed over, texts. */
export const kindOf = (kind: SinkKind): number => (kind === 'number' ? 0 : kind === 'skip' ? 1 : 2);
/** Stamps that the loop reads itself. */
export const kindOfStamps = 3;

/** Whether no mark within a stamp could part the fields. */
const mayHoldStamps = ({ delimiter, tail, blanks }: Plan): boolean =>
  !blanks && [delimiter, tail].every((byte) => !'-/.:_TZ+ '.includes(String.fromCharCode(byte)));

/** Tells the loop how stamps are spelt, as `scripts/wasm/scan.ts` has it. */
export function writeStamps(bytes: Uint8Array, at: number, { isDated, base, suffix, offset }: SteadyStamp): void {
  const view = new DataView(bytes.buffer, at, 64);
  bytes.fill(0, at, at + 64);
  view.setInt32(28, base, true);
  for (let i = 0; i < suffix.length; i++) {
    view.setUint8(32 + i, suffix.charCodeAt(i));
    view.setUint8(40 + i, 0xff);
  }
  view.setInt32(48, suffix.length, true);
  view.setInt32(52, isDated ? 1 : 0, true);
  view.setFloat64(56, offset, true);
}

/**
 * For each end and mark of a number the shuffle that moves the mark to the front and the digits to the right, and which byte then is to be
 * the mark: for no characters at all one that is not there, for a mark alone none.
 */
function writeShuffles(bytes: Uint8Array, at: number): void {
  for (let end = 0; end < 16; end++) {
    for (let mark = 0; mark <= end; mark++) {
      const digits = Array.from({ length: end }, (_, i) => i).filter((i) => i !== mark);
      const blank = Array<number>(15 - digits.length).fill(0x80);
      const entry = at + 32 * (16 * end + mark);
      bytes.set([mark < end ? mark : 0x80, ...blank, ...digits], entry);
      bytes[entry + 16] = end === 0 || (mark < end && end > 1) ? 0xff : 0;
    }
  }
}

/** Powers of five from the least on, as `scripts/wasm/scan.ts` counts them. */
const leastFive = -55;
const fivesCount = 96;

/**
 * The upper 128 bits of 5^q: rounded down, and for q from -27 to -1, where the product with 64 bits is then exact
 * enough, rounded up. Source: Lemire 2021, "Number parsing at a gigabyte per second", section 5.
 */
function writeFives(words: BigUint64Array): void {
  for (let i = 0; i < fivesCount; i++) {
    const q = leastFive + i;
    let five = 1n;
    for (let n = Math.abs(q); n > 0; n--) five *= 5n;
    const bits = BigInt(five.toString(2).length);
    const upper = q < 0 ? (1n << (bits + 127n)) / five + (q < -27 ? 0n : 1n) : (five << 128n) >> bits;
    words[2 * i] = upper >> 64n;
    words[2 * i + 1] = upper & 0xffffffffffffffffn;
  }
}
