import type { Origin } from '../assemble.ts';
import { limits } from '../limits.ts';
import type { ByteSource, ReadWatch } from '../recording.ts';
import { Refused } from '../refusal.ts';
import type { Table, TableColumn } from '../table.ts';

const magic = [0x50, 0x41, 0x52, 0x31];

/** Whether bytes begin a Parquet file. */
export function isParquet(head: Uint8Array): boolean {
  return magic.every((byte, i) => head[i] === byte);
}

/** Seconds of one unit of a stamp column, or undefined for a column that is none. */
type Units = 1e-3 | 1e-6 | 1e-9 | undefined;

interface Element {
  readonly name: string;
  readonly num_children?: number;
  readonly type?: string;
  readonly converted_type?: string;
  readonly logical_type?: { readonly type: string; readonly unit?: string };
}

/**
 * Reads the flat columns of a Parquet file: numbers, stamps (as seconds) and texts; nested columns are left out. The
 * library is loaded only here, as few recordings are in this format.
 */
export async function readParquet(
  source: ByteSource,
  watch: ReadWatch,
): Promise<{ readonly origin: Origin; readonly table: Table }> {
  const { path } = source;
  const [{ parquetMetadataAsync }, { parquetRead }, { compressors }] = await Promise.all([
    import('hyparquet/src/metadata.js'),
    import('hyparquet/src/read.js'),
    import('hyparquet-compressors'),
  ]);
  const file = {
    byteLength: source.size,
    slice: async (from: number, to: number = source.size): Promise<ArrayBuffer> => {
      if (watch.cancelled()) throw new Refused('cancelled', `${path}: reading was stopped.`);
      return readAll(source, from, to);
    },
  };
  try {
    const metadata = await parquetMetadataAsync(file);
    const elements = metadata.schema.slice(1) as Element[];
    const rows = Number(metadata.num_rows);
    refuseSize(path, elements.length, rows);
    const columns: TableColumn[] = [];
    for (const element of flatOf(elements)) {
      const sink = columnSink(element, rows);
      if (sink.skip) {
        columns.push({ kind: 'other', header: element.name, why: sink.skip });
        continue;
      }
      await parquetRead({
        file,
        metadata,
        compressors,
        columns: [element.name],
        parsers: plainParsers,
        onChunk: ({ columnData, rowStart }) => sink.take(columnData as ArrayLike<unknown>, rowStart),
      });
      columns.push(sink.column());
      watch.progress(columns.length / elements.length);
    }
    const table: Table = { columns, rows, named: true, lineOf: () => undefined };
    return { table, origin: { path, layout: { format: 'Parquet', rows }, findings: [] } };
  } catch (error) {
    if (error instanceof Refused) throw error;
    throw new Refused(
      'damaged-parquet',
      `${path}: the Parquet file is damaged or uses a part of the format that can't be read: export it again, or as CSV.`,
    );
  }
}

async function readAll(source: ByteSource, from: number, to: number): Promise<ArrayBuffer> {
  const bytes = new Uint8Array(Math.max(0, to - from));
  let filled = 0;
  while (filled < bytes.length) {
    const some = await source.read(from + filled, bytes.length - filled);
    if (some.length === 0) break;
    bytes.set(some.subarray(0, bytes.length - filled), filled);
    filled += some.length;
  }
  return bytes.buffer;
}

function refuseSize(path: string, columns: number, rows: number): void {
  if (columns > limits.columns)
    throw new Refused(
      'too-many-columns',
      `${path}: the file has ${columns} columns; a recording may have ${limits.columns} at most.`,
    );
  if (!(rows >= 0) || columns * rows > limits.samples)
    throw new Refused(
      'too-many-samples',
      `${path}: the file holds more than ${limits.samples / 1e6} million values, the most that one recording may have: cut it into parts.`,
    );
}

/** The columns that hold one value a row, and the first of each nested one so that it can be named. */
function flatOf(elements: readonly Element[]): Element[] {
  const flat: Element[] = [];
  for (let i = 0; i < elements.length; i++) {
    flat.push(elements[i]);
    let inside = elements[i].num_children ?? 0;
    while (inside > 0 && i + 1 < elements.length) inside += (elements[++i].num_children ?? 0) - 1;
  }
  return flat;
}

/** Stamps as the whole numbers that they are stored as. */
const plainParsers = {
  timestampFromMilliseconds: (value: bigint) => value,
  timestampFromMicroseconds: (value: bigint) => value,
  timestampFromNanoseconds: (value: bigint) => value,
};

function unitsOf({ converted_type: converted, logical_type: logical }: Element): Units {
  if (logical?.type === 'TIMESTAMP') return logical.unit === 'MILLIS' ? 1e-3 : logical.unit === 'MICROS' ? 1e-6 : 1e-9;
  return converted === 'TIMESTAMP_MILLIS' ? 1e-3 : converted === 'TIMESTAMP_MICROS' ? 1e-6 : undefined;
}

interface Sink {
  readonly skip?: string;
  take(values: ArrayLike<unknown>, from: number): void;
  column(): TableColumn;
}

function columnSink(element: Element, rows: number): Sink {
  const { name, type } = element;
  const none = (): TableColumn => ({ kind: 'other', header: name, why: 'it was not read' });
  if ((element.num_children ?? 0) > 0) return { skip: 'it is nested', take: () => undefined, column: none };
  if (type === 'BYTE_ARRAY') return labelSink(name, rows);
  const numeric =
    type === 'DOUBLE' ||
    type === 'FLOAT' ||
    type === 'INT32' ||
    type === 'INT64' ||
    element.converted_type === 'DECIMAL';
  if (!numeric)
    return {
      skip: `it holds ${type?.toLowerCase() ?? 'nothing that can be read'}`,
      take: () => undefined,
      column: none,
    };
  const units = unitsOf(element);
  return units === undefined ? numberSink(name, rows) : stampSink(name, rows, units);
}

function numberSink(header: string, rows: number): Sink {
  const values = new Float64Array(rows).fill(NaN);
  let whole = true;
  return {
    take(chunk, from) {
      for (let i = 0; i < chunk.length && from + i < rows; i++) {
        const value = chunk[i] == null ? NaN : Number(chunk[i]);
        values[from + i] = Number.isFinite(value) ? value : NaN;
        if (whole && !Number.isInteger(value) && !Number.isNaN(value)) whole = false;
      }
    },
    column: () => ({ kind: 'number', header, values, decimals: whole ? 0 : 9 }),
  };
}

function stampSink(header: string, rows: number, units: 1e-3 | 1e-6 | 1e-9): Sink {
  const values = new Float64Array(rows).fill(NaN);
  const aSecond = BigInt(Math.round(1 / units));
  const aDay = 86_400n * aSecond;
  let base: bigint | undefined;
  return {
    take(chunk, from) {
      for (let i = 0; i < chunk.length && from + i < rows; i++) {
        if (chunk[i] == null) continue;
        const stamp = BigInt(chunk[i] as bigint | number);
        base ??= stamp - (((stamp % aDay) + aDay) % aDay);
        values[from + i] = Number(stamp - base) / Number(aSecond);
      }
    },
    column: () => ({
      kind: 'stamp',
      header,
      values,
      base: base === undefined ? undefined : Number(base / aSecond),
      clock: true,
      style: 'timestamp',
      zone: '+00:00',
      quantum: units,
      doubtful: false,
    }),
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
        const text = chunk[i] == null ? '' : String(chunk[i]);
        let label = numbers.get(text);
        if (label === undefined) {
          many = labels.length === limits.labels;
          label = labels.push(text) - 1;
          numbers.set(text, label);
        }
        values[from + i] = label;
      }
    },
    column: () => (many ? { kind: 'other', header, why: 'it holds text' } : { kind: 'label', header, values, labels }),
  };
}
