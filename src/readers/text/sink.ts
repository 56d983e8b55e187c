import { GrowingFacts } from '../columnFacts.ts';
import { memoryForNumbers } from '../reusedMemory.ts';
import { limits } from '../limits.ts';
import type { StampReader } from './stamp.ts';

export type SinkKind = 'number' | 'stamp' | 'label' | 'skip';

/** Where a column's values go while the rows are read: numbers, seconds of stamps, or numbers of labels. */
export class ColumnSink {
  kind: SinkKind;
  values: Float64Array;
  /** Whether some cell was empty, and its value NaN. */
  empty = false;
  readonly stamps: StampReader | undefined;
  /** Of numbers and stamps, as far as they were looked at. */
  readonly #facts = new GrowingFacts();
  /** The label that each number stands for. */
  readonly labels: string[] = [];
  private readonly numbers = new Map<string, number>();
  private last = '';

  constructor(kind: SinkKind, capacity = 0, stamps?: StampReader) {
    this.kind = kind;
    this.stamps = stamps;
    this.values = memoryForNumbers(kind === 'skip' ? 0 : capacity);
  }

  grow(capacity: number): void {
    if (this.kind === 'skip') return;
    const larger = memoryForNumbers(capacity);
    larger.set(this.values);
    this.values = larger;
  }

  /** Goes on in other memory, with the values before a row. */
  moveTo(values: Float64Array, rows: number): void {
    if (this.kind === 'skip') return;
    values.set(this.values.subarray(0, rows));
    this.values = values;
  }

  /** Takes values from a row on, which may stand there already. */
  takeValues(found: Float64Array, row: number): void {
    if (this.kind === 'skip') return;
    const { buffer, byteOffset } = this.values;
    if (found.buffer !== buffer || found.byteOffset !== byteOffset + 8 * row) this.values.set(found, row);
  }

  /** Looks at what has come up to a row, while it is at hand. */
  lookUpTo(row: number): void {
    if (this.kind === 'number' || this.kind === 'stamp') this.#facts.upTo(this.values, row);
  }

  /** Keeps what is known of a column of these values. */
  keepFactsFor(values: Float64Array): void {
    if (this.kind === 'number' || this.kind === 'stamp') this.#facts.keepFor(values);
  }

  /** Takes the bytes [from, to) of a field that is no number; false where they are not what the column holds. */
  take(bytes: Uint8Array, from: number, to: number, row: number): boolean {
    if (this.kind === 'skip') return true;
    if (this.kind === 'stamp') {
      const seconds = this.stamps!.read(bytes, from, to);
      this.values[row] = seconds;
      return !Number.isNaN(seconds);
    }
    this.takeLabel(this.sameAsLast(bytes, from, to) ? this.last : latin1(bytes, from, to), row);
    return true;
  }

  takeLabel(text: string, row: number): void {
    if (this.kind !== 'label') return;
    let number = this.numbers.get(text);
    if (number === undefined) {
      if (this.labels.length === limits.labels) {
        this.kind = 'skip';
        return;
      }
      number = this.labels.push(text) - 1;
      this.numbers.set(text, number);
    }
    this.last = text;
    this.values[row] = number;
  }

  private sameAsLast(bytes: Uint8Array, from: number, to: number): boolean {
    const { last } = this;
    if (last.length !== to - from || last === '') return false;
    for (let i = 0; i < last.length; i++) if (bytes[from + i] !== last.charCodeAt(i)) return false;
    return true;
  }
}

/** Bytes as text, one character a byte. */
function latin1(bytes: Uint8Array, from: number, to: number): string {
  let text = '';
  for (let i = from; i < to; i++) text += String.fromCharCode(bytes[i]);
  return text;
}
