/** The most letters of a cell's first remark that are told. */
const longest = 48;

/** What a reader finds a cell by. */
export interface CellName {
  /** As the reader counts the cells, from 1. */
  readonly number: number;
  /** Its first line where that is a remark, shortened; else empty. */
  readonly remark: string;
}

/** Cells, and what the reader counts each as. */
interface Cells {
  readonly cells: readonly { readonly text: string }[];
  readonly numbers: readonly number[];
}

export function cellNameOf({ cells, numbers }: Cells, cell: number): CellName {
  const [first] = cells[cell].text.split(/\r\n|\r|\n/, 1);
  const remark = /^\s*#+\s*(\S.*)$/.exec(first)?.[1].trim() ?? '';
  const shortened = remark.length <= longest ? remark : `${remark.slice(0, longest - 1).trimEnd()}…`;
  return { number: numbers[cell], remark: shortened };
}

/** A cell for a reader, as in a message: `cell 7, Foam on bricks`. */
export const cellWords = ({ number, remark }: CellName): string =>
  `cell ${number}${remark === '' ? '' : `, ${remark}`}`;
