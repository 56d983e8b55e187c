import { success, type Refused, type Result } from '../../result/result.ts';
import type { Reading } from '../assemble.ts';
import { limits, unfoldsTooFar } from '../limits.ts';
import { refuse } from '../messages.ts';
import { refusedBy } from '../pieces.ts';
import type { ByteSource, ReadWatch } from '../recording.ts';
import type { Table, TableColumn } from '../table.ts';
import { columnSink, type Element } from './parquetColumns.ts';
import { PageChecks } from './parquetPages.ts';
import { namedByPlace, Spans } from './parquetPlaces.ts';

const magic = [0x50, 0x41, 0x52, 0x31];

/** Whether bytes begin a Parquet file. */
export function isParquet(head: Uint8Array): boolean {
  return magic.every((byte, i) => head[i] === byte);
}

/**
 * Reads the flat columns of a Parquet file: numbers, stamps (as seconds) and texts; nested columns are left out. The
 * library is loaded only here, as few recordings are in this format.
 */
export async function readParquet(source: ByteSource, watch: ReadWatch): Promise<Result<Reading>> {
  const { path } = source;
  const [{ parquetMetadataAsync }, { parquetRead }, { parquetHeader }, { compressors }] = await Promise.all([
    import('hyparquet/src/metadata.js'),
    import('hyparquet/src/read.js'),
    import('hyparquet/src/column.js'),
    import('hyparquet-compressors'),
  ]);
  let checks: PageChecks | undefined;
  const file = inTurn(source, watch, (bytes, at) => checks?.look(bytes, at));
  try {
    const metadata = await parquetMetadataAsync(file);
    const elements = metadata.schema.slice(1) as Element[];
    const rows = Number(metadata.num_rows);
    const tooLarge = refusedSize(path, elements.length, rows, source.size);
    if (tooLarge) return tooLarge;
    if (!isCredible(metadata.row_groups, rows, source.size)) return refuse('damaged-parquet', { path });
    const columns: TableColumn[] = [];
    for (const { element, name } of namedByPlace(metadata.row_groups, elements)) {
      const sink = columnSink(element, rows);
      if (sink.skip !== undefined) {
        columns.push({ kind: 'other', header: element.name, why: sink.skip });
        continue;
      }
      const taken = new Spans();
      checks = new PageChecks(metadata.row_groups, { column: element.name, name }, parquetHeader);
      await parquetRead({
        file,
        metadata,
        compressors: limited(compressors),
        columns: [name],
        parsers: plainParsers,
        onChunk: ({ columnData, rowStart }) => {
          taken.add(rowStart, columnData.length);
          sink.take(columnData as ArrayLike<unknown>, rowStart);
        },
      });
      if (!taken.fill(rows)) return refuse('damaged-parquet', { path });
      columns.push(sink.column());
      watch.progress(columns.length / elements.length);
    }
    const table: Table = { columns, rows, named: true, lineOf: () => undefined };
    return success({ table, origin: { path, layout: { format: 'Parquet', rows }, findings: [] } });
  } catch {
    const refused = refusedBy(source);
    if (refused) return refused;
    if (watch.cancelled()) return refuse('cancelled', { path });
    return checks?.damaged ? refuse('damaged-page', { path, ...checks.damaged }) : refuse('damaged-parquet', { path });
  }
}

/**
 * The file as the library takes it. Groups of rows are asked for all at once, and a source may use one buffer again for
 * every read: one by one, then. A reading that is stopped throws, to get out of the library.
 * @param look at what was read, which begins at a byte of the file
 */
function inTurn(source: ByteSource, watch: ReadWatch, look: (bytes: Uint8Array, at: number) => void): AsyncBuffer {
  let before: Promise<unknown> = Promise.resolve();
  return {
    byteLength: source.size,
    slice: (from, to = source.size) => {
      const read = before.then(async () => {
        if (watch.cancelled()) throw new Error('reading was stopped');
        const bytes = await readAll(source, from, to);
        look(new Uint8Array(bytes), from);
        return bytes;
      });
      before = read.catch(() => undefined);
      return read;
    },
  };
}

interface AsyncBuffer {
  readonly byteLength: number;
  slice(from: number, to?: number): Promise<ArrayBuffer>;
}

async function readAll(source: ByteSource, from: number, to: number): Promise<ArrayBuffer> {
  const bytes = new Uint8Array(Math.max(0, to - from));
  let filled = 0;
  while (filled < bytes.length) {
    const some = await source.read(from + filled, bytes.length - filled);
    if (some.length === 0) throw new Error('the file ended early');
    bytes.set(some.subarray(0, bytes.length - filled), filled);
    filled += some.length;
  }
  return bytes.buffer;
}

/** A number takes 8 bytes of memory, whatever it takes in the file. */
const aNumber = 8;

function refusedSize(path: string, columns: number, rows: number, size: number): Refused | undefined {
  if (columns > limits.columns) return refuse('too-many-columns', { path, columns });
  if (!(rows >= 0) || columns * rows > limits.samples) return refuse('too-many-samples', { path, what: 'values' });
  const expanded = aNumber * columns * rows;
  return unfoldsTooFar(expanded, size)
    ? refuse('expands-too-far', { path, expanded, factor: expanded / size })
    : undefined;
}

interface RowGroup {
  readonly num_rows: bigint;
  readonly columns: readonly { readonly meta_data?: { readonly total_compressed_size: bigint } }[];
}

/**
 * Whether a file's counts hold against one another and its size, before memory is taken for them: its groups have
 * as many rows as it states, and their columns lie in the file.
 */
function isCredible(groups: readonly RowGroup[], rows: number, size: number): boolean {
  const sizes = groups.flatMap(({ columns }) =>
    columns.map((one) => Number(one.meta_data?.total_compressed_size ?? 0)),
  );
  const stored = sizes.reduce((sum, bytes) => sum + bytes, 0);
  const inGroups = groups.reduce((sum, group) => sum + Number(group.num_rows), 0);
  return inGroups === rows && sizes.every((bytes) => bytes >= 0) && stored <= size;
}

type Compressor = (input: Uint8Array, outputLength: number) => Uint8Array;

/** The library's ways to unpack, each held to the limits before it takes memory. */
const limited = <Codec extends string>(
  compressors: Readonly<Partial<Record<Codec, Compressor>>>,
): Partial<Record<Codec, Compressor>> =>
  Object.fromEntries(
    Object.entries<Compressor | undefined>(compressors).map(([codec, unpack]) => [
      codec,
      (input: Uint8Array, outputLength: number) => {
        if (unpack === undefined || unfoldsTooFar(outputLength, input.length))
          throw new Error('a page unfolds beyond the limits');
        return unpack(input, outputLength);
      },
    ]),
  ) as Partial<Record<Codec, Compressor>>;

/** Stamps as the whole numbers that they are stored as. */
const plainParsers = {
  timestampFromMilliseconds: (value: bigint) => value,
  timestampFromMicroseconds: (value: bigint) => value,
  timestampFromNanoseconds: (value: bigint) => value,
};
