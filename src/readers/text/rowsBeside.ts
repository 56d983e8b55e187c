import { limits } from '../limits.ts';
import type { Plan } from './plan.ts';
import { ScanVectors } from './scanVectors.ts';
import { ColumnSink } from './sink.ts';
import { StampReader } from './stamp.ts';
import type { StampForm, SteadyStamp } from './stampForm.ts';

/** How rows are read that need nothing but themselves; plain data, for another thread. */
export interface SharedPlan extends Omit<Plan, 'sinks'> {
  readonly kinds: readonly ('number' | 'skip' | 'stamp')[];
  /** Of the column of stamps. */
  readonly stamps: { readonly form: StampForm; readonly steady: SteadyStamp } | undefined;
}

/** The plan for another thread, or undefined where what a row means depends on the rows before. */
export function sharedPlan({ sinks, ...plan }: Plan): SharedPlan | undefined {
  const stamped = sinks.filter(({ kind }) => kind === 'stamp');
  const [stamps] = stamped.map((sink) => sink.stamps!);
  if (stamped.length > 1 || sinks.some(({ kind }) => kind === 'label')) return undefined;
  if (stamped.length === 1 && stamps.steady === undefined) return undefined;
  return {
    ...plan,
    kinds: sinks.map(({ kind }) => kind as SharedPlan['kinds'][number]),
    stamps: stamped.length === 0 ? undefined : { form: stamps.form, steady: stamps.steady! },
  };
}

/** Starts another thread on rows of this plan; undefined where none is free. */
export type StartBeside = (plan: SharedPlan) => RowsBeside | undefined;

/** Pieces of a text that are held at a time. */
const count = 4;
/** Bytes of a piece with what was left of the one before, and the byte behind it. */
const room = limits.piece + limits.line + 64;
/** Numbers that are read of a piece, at most. */
const most = 1 << 20;

/** Words of a piece: its state, its place in the file's order, its bytes, and of its rows as `Scanned` says. */
const words = { state: 0, order: 1, end: 2, at: 3, rows: 4, lines: 5, all: 8 } as const;
/** Nobody's, to be read, being read by the one or the other thread, read by the other. */
const states = { free: 0, posted: 1, here: 2, there: 3, read: 4 } as const;
/** Words before those of the pieces: whether all is over, and how often there was something new. */
const ended = 0;
const news = 1;
const controls = 8 + count * words.all;

/** Memory of two threads that read the rows of one text. @param columns of the text */
export const sharedMemory = (columns: number): SharedArrayBuffer =>
  new SharedArrayBuffer(count * (8 * most + room) + 4 * controls + count * columns);

/** The parts of the memory. */
class Memory {
  readonly control: Int32Array;
  readonly #shared: SharedArrayBuffer;
  readonly #columns: number;

  constructor(shared: SharedArrayBuffer, columns: number) {
    [this.#shared, this.#columns] = [shared, columns];
    this.control = new Int32Array(shared, count * (8 * most + room), controls);
  }

  /** Where the words of a piece begin. */
  wordsOf = (slot: number): number => 8 + slot * words.all;
  bytesOf = (slot: number): Uint8Array => new Uint8Array(this.#shared, count * 8 * most + slot * room, room);
  /** A byte a column: whether a cell was empty. */
  emptiesOf = (slot: number): Uint8Array =>
    new Uint8Array(this.#shared, count * (8 * most + room) + 4 * controls + slot * this.#columns, this.#columns);
  valuesOf(slot: number, k: number): Float64Array {
    const rows = Math.floor(most / this.#columns);
    return new Float64Array(this.#shared, 8 * (slot * most + k * rows), rows);
  }
}

/** What was read of a piece from its first row on, up to a line that needs more than vectors. */
export interface Scanned {
  readonly rows: number;
  /** The byte that comes next, and how many lines were passed before it. */
  readonly at: number;
  readonly lines: number;
  /** A byte a column: whether a cell was empty. */
  readonly empties: Uint8Array;
  /** A column's values. */
  readonly values: (k: number) => Float64Array;
}

/** How long the other thread is waited for before its piece is read here, in ms. */
const patience = 2000;

/** Pieces of a text that two threads read: the other the latest, this one those that come next in order. */
export class RowsBeside {
  readonly #memory: Memory;
  #posted = 0;

  constructor(shared: SharedArrayBuffer, columns: number) {
    this.#memory = new Memory(shared, columns);
    this.#memory.control.fill(0);
  }

  /** A piece's place that nobody reads, or undefined. */
  free(): number | undefined {
    const { control, wordsOf } = this.#memory;
    for (let slot = 0; slot < count; slot++)
      if (Atomics.load(control, wordsOf(slot) + words.state) === states.free) return slot;
    return undefined;
  }

  bytesOf(slot: number): Uint8Array {
    return this.#memory.bytesOf(slot);
  }

  /** Has the rows up to a byte read by whoever comes first. */
  post(slot: number, end: number): void {
    const { control, wordsOf } = this.#memory;
    const at = wordsOf(slot);
    control[at + words.order] = ++this.#posted;
    control[at + words.end] = end;
    Atomics.store(control, at + words.state, states.posted);
    Atomics.add(control, news, 1);
    Atomics.notify(control, news);
  }

  /** What the other thread read of a piece, or undefined where it is now this one's. */
  taken(slot: number): Scanned | undefined {
    const { control, wordsOf } = this.#memory;
    const at = wordsOf(slot);
    const state = at + words.state;
    if (Atomics.compareExchange(control, state, states.posted, states.here) === states.posted) return undefined;
    Atomics.wait(control, state, states.there, patience);
    // One that does not answer reads on into places that are not looked at any more.
    if (Atomics.compareExchange(control, state, states.there, states.here) === states.there) return undefined;
    return {
      rows: control[at + words.rows],
      at: control[at + words.at],
      lines: control[at + words.lines],
      empties: this.#memory.emptiesOf(slot),
      values: (k) => this.#memory.valuesOf(slot, k),
    };
  }

  release(slot: number): void {
    const { control, wordsOf } = this.#memory;
    Atomics.store(control, wordsOf(slot) + words.state, states.free);
  }

  /** Lets the other thread go. */
  stop(): void {
    const { control } = this.#memory;
    Atomics.store(control, ended, 1);
    Atomics.add(control, news, 1);
    Atomics.notify(control, news);
  }
}

/** Reads pieces beside the thread that posts them, until it is let go. Blocks. */
export function readBeside(shared: SharedArrayBuffer, plan: SharedPlan): void {
  const memory = new Memory(shared, plan.kinds.length);
  const { control } = memory;
  while (Atomics.load(control, ended) === 0) {
    const before = Atomics.load(control, news);
    const slot = latest(memory);
    if (slot === undefined) Atomics.wait(control, news, before);
    else scanPiece(memory, slot, plan);
  }
}

/** The piece that was posted last, now taken by this thread. */
function latest({ control, wordsOf }: Memory): number | undefined {
  let found: number | undefined;
  for (let slot = 0; slot < count; slot++) {
    if (Atomics.load(control, wordsOf(slot) + words.state) !== states.posted) continue;
    if (found === undefined || control[wordsOf(slot) + words.order] > control[wordsOf(found) + words.order])
      found = slot;
  }
  if (found === undefined) return undefined;
  const state = wordsOf(found) + words.state;
  return Atomics.compareExchange(control, state, states.posted, states.there) === states.posted ? found : undefined;
}

function scanPiece(memory: Memory, slot: number, { kinds, stamps, ...plan }: SharedPlan): void {
  const { control, wordsOf } = memory;
  const at = wordsOf(slot);
  const sinks = kinds.map((kind, k) => {
    const reader = kind === 'stamp' && stamps !== undefined ? new StampReader(stamps.form) : undefined;
    if (reader !== undefined) reader.steady = stamps?.steady;
    const sink = new ColumnSink(kind, 0, reader);
    if (kind !== 'skip') sink.values = memory.valuesOf(slot, k);
    return sink;
  });
  const cursor = { at: 0, row: 0, line: 0 };
  const end = control[at + words.end];
  ScanVectors.for(memory.bytesOf(slot), end, { ...plan, sinks })?.scan(cursor, Math.floor(most / kinds.length));
  const empties = memory.emptiesOf(slot);
  sinks.forEach(({ empty }, k) => (empties[k] = empty ? 1 : 0));
  control[at + words.at] = cursor.at;
  control[at + words.rows] = cursor.row;
  control[at + words.lines] = cursor.line;
  const state = at + words.state;
  if (Atomics.compareExchange(control, state, states.there, states.read) === states.there)
    Atomics.notify(control, state);
}
