import type { Message } from '../../result/result.ts';
import { limits } from '../limits.ts';
import { leftOutFor } from '../messages/leftOut.ts';
import type { TableColumn } from '../table.ts';
import { decimalsOf, isMissing, parseNumber } from '../text/number.ts';
import { StampReader } from '../text/stamp.ts';
import { fractionDigits, stampForm } from '../text/stampForm.ts';
import { tenTo } from '../../numbers/power.ts';

/** Seconds of one unit of a column of stamps. */
type Units = 1e-3 | 1e-6 | 1e-9;

/** How a column tells the time, whether with the date or of the day alone, and whether by a clock of no stated zone. */
interface Stamps {
  readonly units: Units;
  readonly isOfDay: boolean;
  readonly isLocal: boolean;
}

/** A column of the file's schema. */
export interface Element {
  readonly name: string;
  readonly num_children?: number;
  readonly repetition_type?: string;
  readonly type?: string;
  readonly converted_type?: string;
  readonly logical_type?: { readonly type: string; readonly unit?: string; readonly isAdjustedToUTC?: boolean };
}

/** What a column's schema says of the time; null where it is no clock. INT96 is what older writers keep stamps in. */
function stampsOf({ type, converted_type: converted = '', logical_type: logical }: Element): Stamps | null {
  if (logical?.type === 'TIMESTAMP' || logical?.type === 'TIME') {
    const units = logical.unit === 'MILLIS' ? 1e-3 : logical.unit === 'MICROS' ? 1e-6 : 1e-9;
    return { units, isOfDay: logical.type === 'TIME', isLocal: logical.isAdjustedToUTC === false };
  }
  if (type === 'INT96') return { units: 1e-9, isOfDay: false, isLocal: false };
  const found = /^(TIME|TIMESTAMP)_(MILLIS|MICROS)$/.exec(converted);
  return found && { units: found[2] === 'MILLIS' ? 1e-3 : 1e-6, isOfDay: found[1] === 'TIME', isLocal: false };
}

/** Where a column's values go while they are read. */
export interface Sink {
  /** Why the column is passed over, if it is. */
  readonly skip?: Message;
  take(values: ArrayLike<unknown>, from: number): void;
  column(): TableColumn;
}

/** A place for a column's values by what it holds: numbers, stamps, texts that are either, or labels. */
export function columnSink(element: Element, rows: number): Sink {
  const { name, type, converted_type: converted, logical_type: logical } = element;
  if ((element.num_children ?? 0) > 0 || element.repetition_type === 'REPEATED')
    return passedOver(name, leftOutFor('column.nested', {}));
  if (converted === 'DATE' || logical?.type === 'DATE') return passedOver(name, leftOutFor('column.dates', {}));
  if (type === 'BYTE_ARRAY' && converted !== 'DECIMAL') {
    const other = [converted, logical?.type].find((kind) => kind !== undefined && !textual.has(kind));
    return other === undefined ? textSink(name, rows) : passedOver(name, leftOutFor('column.type', { type: other }));
  }
  const numeric =
    type === 'DOUBLE' ||
    type === 'FLOAT' ||
    type === 'INT32' ||
    type === 'INT64' ||
    type === 'INT96' ||
    logical?.type === 'FLOAT16' ||
    converted === 'DECIMAL';
  if (!numeric) return passedOver(name, leftOutFor('column.type', { type }));
  const stamps = stampsOf(element);
  return stamps === null ? numberSink(name, rows) : stampSink(name, rows, stamps);
}

/** What a column of bytes may be told to be that is text. */
const textual: ReadonlySet<string> = new Set(['UTF8', 'STRING', 'ENUM']);

const passedOver = (header: string, why: Message): Sink => ({
  skip: why,
  take: () => undefined,
  column: () => ({ kind: 'other', header, why }),
});

function numberSink(header: string, rows: number): Sink {
  const values = new Float64Array(rows).fill(NaN);
  let whole = true;
  let isEmpty = rows > 0;
  return {
    take(chunk, from) {
      for (let i = 0; i < chunk.length && from + i < rows; i++) {
        const value = chunk[i] == null ? NaN : Number(chunk[i]);
        values[from + i] = Number.isFinite(value) ? value : NaN;
        if (Number.isFinite(value)) isEmpty = false;
        if (whole && !Number.isInteger(value) && !Number.isNaN(value)) whole = false;
      }
    },
    column: () =>
      isEmpty
        ? { kind: 'other', header, why: leftOutFor('column.no-number', {}) }
        : { kind: 'number', header, values, decimals: whole ? 0 : 9 },
  };
}

function stampSink(header: string, rows: number, { units, isOfDay, isLocal }: Stamps): Sink {
  const values = new Float64Array(rows).fill(NaN);
  const aSecond = BigInt(Math.round(1 / units));
  const aDay = 86_400n * aSecond;
  let base: bigint | undefined;
  return {
    take(chunk, from) {
      for (let i = 0; i < chunk.length && from + i < rows; i++) {
        if (chunk[i] == null) continue;
        const stamp = BigInt(chunk[i] as bigint | number);
        base ??= isOfDay ? 0n : stamp - (((stamp % aDay) + aDay) % aDay);
        values[from + i] = Number(stamp - base) / Number(aSecond);
      }
    },
    column: () => ({
      kind: 'stamp',
      header,
      values,
      base: base === undefined || isOfDay ? undefined : Number(base / aSecond),
      clock: true,
      style: isOfDay ? 'clock' : 'timestamp',
      zone: isOfDay || isLocal ? undefined : '+00:00',
      quantum: units,
      doubtful: false,
    }),
  };
}

/** A column of texts: of numbers or of clock stamps where the first ones that are no empty cells are, else of labels. */
function textSink(header: string, rows: number): Sink {
  let sink: Sink | undefined;
  const empty: { readonly chunk: ArrayLike<unknown>; readonly from: number }[] = [];
  return {
    take(chunk, from) {
      sink ??= sinkOf(header, rows, chunk);
      if (sink === undefined) empty.push({ chunk, from });
      else sink.take(chunk, from);
    },
    column() {
      const own = sink ?? labelSink(header, rows);
      // As labels, empty cells are texts like any other.
      for (const { chunk, from } of empty) own.take(chunk, from);
      return own.column();
    },
  };
}

/** A cell as the library gives it. */
type Cell = string | number | bigint | boolean | Date | null | undefined;

const textOf = (cell: Cell): string => (cell == null ? '' : String(cell));

/** Where texts go by the first 400 of them that are no empty cells; undefined where all are. */
function sinkOf(header: string, rows: number, chunk: ArrayLike<unknown>): Sink | undefined {
  const filled: string[] = [];
  for (let i = 0; i < chunk.length && filled.length < 400; i++) {
    const text = textOf(chunk[i] as Cell);
    if (!isMissing(text)) filled.push(text);
  }
  if (filled.length === 0) return undefined;
  const mark = (['.', ','] as const).find((one) => filled.every((text) => parseNumber(text, one) !== undefined));
  if (mark !== undefined) {
    const decimals = Math.max(...filled.map((text) => decimalsOf(text, mark)));
    return spelledSink(
      rows,
      (text) => parseNumber(text, mark) ?? NaN,
      (values) => ({ kind: 'number', header, values, decimals }),
    );
  }
  const form = stampForm(filled);
  if (form === undefined || form.clock === 'none') return labelSink(header, rows);
  const reader = new StampReader(form);
  const encoder = new TextEncoder();
  const read = (text: string): number => {
    const bytes = encoder.encode(text.trim());
    return reader.read(bytes, 0, bytes.length);
  };
  const digits = Math.max(...filled.map(fractionDigits));
  return spelledSink(rows, read, (values) => ({
    kind: 'stamp',
    header,
    values,
    base: reader.base === undefined ? undefined : reader.base * 86_400,
    clock: true,
    style: 'clock',
    zone: reader.zone,
    quantum: tenTo(-digits),
    doubtful: form.doubtful,
  }));
}

function spelledSink(
  rows: number,
  read: (text: string) => number,
  column: (values: Float64Array) => TableColumn,
): Sink {
  const values = new Float64Array(rows).fill(NaN);
  return {
    take(chunk, from) {
      for (let i = 0; i < chunk.length && from + i < rows; i++)
        if (chunk[i] != null) values[from + i] = read(String(chunk[i]));
    },
    column: () => column(values),
  };
}

function labelSink(header: string, rows: number): Sink {
  const values = new Float64Array(rows);
  const labels: string[] = [];
  const numbers = new Map<string, number>();
  let many = false;
  return {
    take(chunk, from) {
      for (let i = 0; i < chunk.length && !many; i++) {
        const text = textOf(chunk[i] as Cell);
        let label = numbers.get(text);
        if (label === undefined) {
          many = labels.length === limits.labels;
          label = labels.push(text) - 1;
          numbers.set(text, label);
        }
        values[from + i] = label;
      }
    },
    column: () =>
      many
        ? { kind: 'other', header, why: leftOutFor('column.text', { texts: [], count: 0 }) }
        : { kind: 'label', header, values, labels },
  };
}
