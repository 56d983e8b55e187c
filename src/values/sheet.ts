/** A run sheet as read. */
export interface SheetValue {
  readonly kind: 'sheet';
  readonly file: string;
  readonly columns: readonly string[];
  readonly rows: readonly SheetRow[];
}

export interface SheetRow {
  /** 1-based line in the sheet. */
  readonly line?: number;
  /** Relative to the notebook's folder; empty for a run that has no recording yet. */
  readonly file: string;
  readonly condition: string | undefined;
  readonly order: number | undefined;
  readonly excluded: boolean;
  readonly why: string | undefined;
  /** All cells of the row, by the column's header. */
  readonly facts: Readonly<Record<string, string>>;
}
