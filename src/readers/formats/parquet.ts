import type { Origin } from '../assemble.ts';
import { limits } from '../limits.ts';
import type { ByteSource, ReadWatch } from '../recording.ts';
import { Refused } from '../refusal.ts';
import type { Table, TableColumn } from '../table.ts';
import { columnSink, type Element } from './parquetColumns.ts';

const magic = [0x50, 0x41, 0x52, 0x31];

/** Whether bytes begin a Parquet file. */
export function isParquet(head: Uint8Array): boolean {
  return magic.every((byte, i) => head[i] === byte);
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
  // Groups of rows are asked for all at once, and a source may use one buffer again for every read: one by one, then.
  let before: Promise<unknown> = Promise.resolve();
  const file = {
    byteLength: source.size,
    slice: (from: number, to: number = source.size): Promise<ArrayBuffer> => {
      const read = before.then(() => {
        if (watch.cancelled()) throw new Refused('cancelled', `${path}: reading was stopped.`);
        return readAll(source, from, to);
      });
      before = read.catch(() => undefined);
      return read;
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
