/** What stands in one place of a table: null where there is no figure. */
export type Cell = number | string | null;

/** Figures with their units, as they are shown, copied or saved. */
export interface Cells {
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface TableColumn {
  readonly name: string;
  readonly unit: string;
}

/** A table from its columns' names and units, and its rows. */
export function cellsOf(
  caption: string,
  columns: readonly (readonly [name: string, unit: string])[],
  rows: readonly (readonly Cell[])[],
): Cells {
  return { caption, columns: columns.map(([name, unit]) => ({ name, unit })), rows };
}
