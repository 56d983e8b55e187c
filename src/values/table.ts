export interface TableColumn {
  readonly name: string;
  readonly unit: string;
}

export interface TableValue {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly (number | string | null)[])[];
}
