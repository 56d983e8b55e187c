import { crc32 } from '../../numbers/crc32.ts';

/** A group of rows as the file's end describes it. */
interface RowGroup {
  readonly columns: readonly {
    readonly meta_data?: {
      readonly path_in_schema: readonly string[];
      readonly data_page_offset: bigint;
      readonly dictionary_page_offset?: bigint;
      readonly total_compressed_size: bigint;
    };
  }[];
}

/** Reads the header of a page and moves on to what it is about, as the library's `parquetHeader` does. */
export type HeaderReader = (reader: { view: DataView; offset: number }) => {
  readonly type: string;
  readonly compressed_page_size: number;
  readonly crc?: number;
};

/** A page whose bytes are not those that its checksum was made of: counted from 1, 0 for the dictionary. */
export interface DamagedPage {
  readonly column: string;
  /** Of the rows, counted from 1. */
  readonly group: number;
  readonly page: number;
}

/** A chunk of a column in the file's bytes. */
interface Chunk {
  readonly from: number;
  readonly to: number;
  readonly group: number;
}

/**
 * Holds the pages of a column to their checksums, where they have one (Apache Parquet format, PageHeader.crc: CRC-32 of what
 * comes between a page's header and the next one), as their bytes are read.
 * @param column as messages name it
 * @param name by which its chunks are known
 */
export class PageChecks {
  damaged: DamagedPage | undefined;
  readonly #column: string;
  readonly #chunks: readonly Chunk[];
  readonly #header: HeaderReader;

  constructor(groups: readonly RowGroup[], { column, name }: { column: string; name: string }, header: HeaderReader) {
    this.#column = column;
    this.#header = header;
    this.#chunks = groups.flatMap(({ columns }, group) =>
      columns.flatMap(({ meta_data: meta }) => {
        if (meta?.path_in_schema[0] !== name) return [];
        // Some write 0 where there is no dictionary.
        const dictionary = Number(meta.dictionary_page_offset ?? 0);
        const from = dictionary > 0 ? dictionary : Number(meta.data_page_offset);
        return [{ from, to: from + Number(meta.total_compressed_size), group: group + 1 }];
      }),
    );
  }

  /** Looks at the column's chunks that lie whole in bytes of the file. Throws where a page of theirs is damaged. @param at where the bytes begin */
  look(bytes: Uint8Array, at: number): void {
    for (const { from, to, group } of this.#chunks) {
      if (from < at || to > at + bytes.length) continue;
      const page = damagedPage(bytes.subarray(from - at, to - at), this.#header);
      if (page === undefined) continue;
      this.damaged ??= { column: this.#column, group, page };
      throw new Error('a page does not match its checksum');
    }
  }
}

/** The first page of a chunk that does not match its checksum, as a `DamagedPage` counts; what is no page is left to the library. */
function damagedPage(chunk: Uint8Array, headerOf: HeaderReader): number | undefined {
  const reader = { view: new DataView(chunk.buffer, chunk.byteOffset, chunk.length), offset: 0 };
  let page = 0;
  while (reader.offset < chunk.length - 1) {
    const { type, compressed_page_size: size, crc } = headerOf(reader);
    const end = reader.offset + size;
    if (!(size >= 0 && end <= chunk.length)) return undefined;
    const isDictionary = type === 'DICTIONARY_PAGE';
    if (!isDictionary) page++;
    if (crc !== undefined && crc >>> 0 !== crc32(chunk.subarray(reader.offset, end))) return isDictionary ? 0 : page;
    reader.offset = end;
  }
  return undefined;
}
