import { parquetWriteBuffer } from 'hyparquet-writer';
import type { Cells } from '../values/cells.ts';
import { columnHeads } from '../values/csv.ts';

/**
 * A table as a Parquet file: numbers as doubles, words as texts, a place without a figure null. Columns are called as in CSV, with
 * their units; a heading that stands twice has its number added, for names of columns are unique here.
 */
export function parquetOf({ columns, rows }: Cells): Uint8Array {
  const heads = columnHeads(columns);
  const columnData = heads.map((head, index) => {
    const cells = rows.map((row) => row[index]);
    const isText = cells.some((cell) => typeof cell === 'string');
    const before = heads.slice(0, index).filter((other) => other === head).length;
    return {
      name: before === 0 ? head : `${head} ${before + 1}`,
      data: isText ? cells.map((cell) => (cell === null ? null : String(cell))) : cells,
      type: isText ? ('STRING' as const) : ('DOUBLE' as const),
      nullable: true,
    };
  });
  return new Uint8Array(parquetWriteBuffer({ columnData }));
}
