import { sharedMemory, type LoopMemory } from '../../numbers/compiled.ts';
import { columnWork, ColumnVectors } from '../columnVectors.ts';
import { limits } from '../limits.ts';
import type { Plan } from './plan.ts';
import { RowsInPlace, rowsWork, zerosBehind, type ColumnPlaces } from './rowsInPlace.ts';
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

/** Starts another thread on rows of this plan, of which there are about as many as `capacity`; undefined where none is free. */
export type StartBeside = (plan: SharedPlan, capacity: number) => RowsBeside | undefined;

/** Pieces of a text that are held at a time. */
const count = 4;
/** Bytes of a piece with what was left of the one before, and the zeros behind them. */
const room = limits.piece + limits.line + zerosBehind;

/** Words of a piece: its state, its place in the file's order, where its bytes begin and how many they are, its first row, and of its rows as `Scanned` says. */
const words = { state: 0, order: 1, from: 2, end: 3, first: 4, at: 5, rows: 6, lines: 7, all: 8 } as const;
/** Nobody's, to be read, being read, read, given up. */
const states = { free: 0, posted: 1, begun: 2, read: 3, lost: 4 } as const;
/** Words before those of the pieces: whether all is over, and how often there was something new. */
const ended = 0;
const news = 1;
const controls = 8 + count * words.all;

/** Memory of two threads that read the rows of one text: what they work with, words, pieces, columns. Plain data, for another thread. */
export interface SharedRows {
  readonly memory: LoopMemory;
  readonly columns: number;
  /** Rows that the columns have room for. */
  readonly capacity: number;
}

const controlAt = rowsWork + columnWork;
const emptiesAt = controlAt + 4 * controls;
const piecesAt = 16 * Math.ceil((emptiesAt + count * limits.columns) / 16);
const columnsAt = piecesAt + count * room;

/** Memory for the rows of a text; undefined where there is no room for it. */
function sharedRows(columns: number, capacity: number): SharedRows | undefined {
  try {
    return { memory: sharedMemory(columnsAt + 8 * columns * capacity), columns, capacity };
  } catch (error) {
    if (error instanceof RangeError || error instanceof TypeError) return undefined;
    throw error;
  }
}

/** The parts of the memory. */
class Memory {
  readonly control: Int32Array;
  readonly #shared: SharedRows;

  constructor(shared: SharedRows) {
    this.#shared = shared;
    this.control = new Int32Array(shared.memory.buffer, controlAt, controls);
  }

  /** Where the words of a piece begin. */
  wordsOf = (slot: number): number => 8 + slot * words.all;
  bytesOf = (slot: number): Uint8Array => new Uint8Array(this.#shared.memory.buffer, piecesAt + slot * room, room);
  /** A byte a column: whether a cell was empty. */
  emptiesOf = (slot: number): Uint8Array =>
    new Uint8Array(this.#shared.memory.buffer, emptiesAt + slot * limits.columns, this.#shared.columns);
  valuesOf(k: number): Float64Array {
    const { memory, capacity } = this.#shared;
    return new Float64Array(memory.buffer, columnsAt + 8 * capacity * k, capacity);
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
  /** A column's values of these rows. */
  readonly values: (k: number) => Float64Array;
}

/** How long the other thread is waited for before its piece is read here, in ms. */
const patience = 2000;

/** Pieces of a text that two threads read: the other the latest, this one the earliest. */
export class RowsBeside {
  /** What the other thread has to know. */
  readonly shared: SharedRows;
  readonly #memory: Memory;
  readonly #plan: SharedPlan;
  #posted = 0;
  /** Rows of the pieces that were posted, at most. */
  #rows = 0;
  /** Whether the other thread did not answer: it may write on into the columns, at any time. */
  isLost = false;

  /** Memory for rows of this plan; undefined where there is none, or no loop for it. */
  static of(plan: SharedPlan, capacity: number): RowsBeside | undefined {
    const shared = sharedRows(plan.kinds.length, capacity);
    return shared && RowsInPlace.workIn(placesOf(shared), true) ? new RowsBeside(shared, plan) : undefined;
  }

  private constructor(shared: SharedRows, plan: SharedPlan) {
    [this.shared, this.#plan] = [shared, plan];
    this.#memory = new Memory(shared);
    ColumnVectors.workIn(shared.memory, rowsWork);
  }

  /** Where a column's values go. */
  valuesOf(k: number): Float64Array {
    return this.#memory.valuesOf(k);
  }

  /** Begins behind so many rows. */
  beginAt(row: number): void {
    this.#rows = row;
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

  /** Has the rows in so many bytes from one on read by whoever comes first; false where there is no room for as many as it has lines. */
  post(slot: number, from: number, end: number): boolean {
    const { control, wordsOf, bytesOf } = this.#memory;
    const at = wordsOf(slot);
    const lines = RowsInPlace.linesIn(bytesOf(slot).subarray(from), end);
    if (this.#rows + lines > this.shared.capacity) return false;
    control[at + words.order] = ++this.#posted;
    control[at + words.from] = from;
    control[at + words.end] = end;
    control[at + words.first] = this.#rows;
    this.#rows += lines;
    Atomics.store(control, at + words.state, states.posted);
    Atomics.add(control, news, 1);
    Atomics.notify(control, news);
    return true;
  }

  /** Whether a piece was read. */
  isRead(slot: number): boolean {
    const { control, wordsOf } = this.#memory;
    return Atomics.load(control, wordsOf(slot) + words.state) === states.read;
  }

  /** Reads the earliest of the pieces that nobody has begun, in this thread; false where there is none. */
  readOne(): boolean {
    const slot = begun(this.#memory, (order, best) => order < best);
    if (slot !== undefined) scanPiece(this.#memory, slot, this.#plan, this.shared.capacity);
    return slot !== undefined;
  }

  /** What was read of a piece; undefined where the other thread is not done in time: it is now this one's. */
  taken(slot: number): Scanned | undefined {
    const { control, wordsOf } = this.#memory;
    const at = wordsOf(slot);
    const state = at + words.state;
    Atomics.wait(control, state, states.begun, patience);
    this.isLost = Atomics.compareExchange(control, state, states.begun, states.lost) === states.begun;
    if (this.isLost) return undefined;
    const [first, rows] = [control[at + words.first], control[at + words.rows]];
    return {
      rows,
      at: control[at + words.at],
      lines: control[at + words.lines],
      empties: this.#memory.emptiesOf(slot),
      values: (k) => this.valuesOf(k).subarray(first, first + rows),
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

const placesOf = ({ memory, capacity }: SharedRows): ColumnPlaces => ({ memory, at: columnsAt, capacity });

/** Reads pieces beside the thread that posts them, until it is let go. Blocks. */
export function readBeside(shared: SharedRows, plan: SharedPlan): void {
  const memory = new Memory(shared);
  const { control } = memory;
  if (!RowsInPlace.workIn(placesOf(shared), false)) return;
  while (Atomics.load(control, ended) === 0) {
    const before = Atomics.load(control, news);
    const slot = begun(memory, (order, best) => order > best);
    if (slot === undefined) Atomics.wait(control, news, before);
    else scanPiece(memory, slot, plan, shared.capacity);
  }
}

/** The best of the posted pieces by their order, now begun by this thread. */
function begun({ control, wordsOf }: Memory, isBetter: (order: number, best: number) => boolean): number | undefined {
  let found: number | undefined;
  for (let slot = 0; slot < count; slot++) {
    if (Atomics.load(control, wordsOf(slot) + words.state) !== states.posted) continue;
    if (found === undefined || isBetter(control[wordsOf(slot) + words.order], control[wordsOf(found) + words.order]))
      found = slot;
  }
  if (found === undefined) return undefined;
  const state = wordsOf(found) + words.state;
  return Atomics.compareExchange(control, state, states.posted, states.begun) === states.posted ? found : undefined;
}

function scanPiece(memory: Memory, slot: number, { kinds, stamps, ...plan }: SharedPlan, capacity: number): void {
  const { control, wordsOf } = memory;
  const at = wordsOf(slot);
  const sinks = kinds.map((kind, k) => {
    const reader = kind === 'stamp' && stamps !== undefined ? new StampReader(stamps.form) : undefined;
    if (reader !== undefined) reader.steady = stamps?.steady;
    const sink = new ColumnSink(kind, 0, reader);
    if (kind !== 'skip') sink.values = memory.valuesOf(k);
    return sink;
  });
  const first = control[at + words.first];
  const cursor = { at: 0, row: first, line: 0 };
  RowsInPlace.for(memory.bytesOf(slot).subarray(control[at + words.from]), { ...plan, sinks })?.scan(cursor, capacity);
  const empties = memory.emptiesOf(slot);
  sinks.forEach(({ empty }, k) => (empties[k] = empty ? 1 : 0));
  control[at + words.at] = cursor.at;
  control[at + words.rows] = cursor.row - first;
  control[at + words.lines] = cursor.line;
  const state = at + words.state;
  if (Atomics.compareExchange(control, state, states.begun, states.read) === states.begun)
    Atomics.notify(control, state);
}
