/** What stands in one place of a table: null where there is no figure. */
export type Cell = number | string | null;

/** Figures with their units, as they are shown, copied or saved. */
export interface Cells {
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface TableColumn {
  /** As files and JSON have it: `total_rms`. */
  readonly name: string;
  readonly unit: string;
  /** As people read it, where that is another: `r.m.s. with mean`. */
  readonly written?: string;
}

/** A table from its columns' names and units, and its rows. @param columns each with the way it is written for people, if that is another */
export function cellsOf(
  caption: string,
  columns: readonly (readonly [name: string, unit: string, written?: string])[],
  rows: readonly (readonly Cell[])[],
): Cells {
  return { caption, columns: columns.map(columnOf), rows };
}

const columnOf = ([name, unit, written = name]: readonly [string, string, string?]): TableColumn =>
  written === name ? { name, unit } : { name, unit, written };
