import { figure } from './columns.ts';
import { cellsOf, type Cell, type Cells } from './cells.ts';
import type { Column, Detail, Figure, Rows, SeriesColumn } from './description.ts';
import { finite, type Json } from './jsonNumbers.ts';

// What JSON and tables have of columns and rows, whatever the kind.

const isFigure = <Row, V>(column: Column<Row, V> | Detail<Row, V>): column is Figure<Row, V> => 'read' in column;

/** The columns that are figures or words, and not JSON's alone. */
export const figuresIn = <Row, V>(columns: readonly Column<Row, V>[]): Figure<Row, V>[] => columns.filter(isFigure);

/** What JSON adds to the name of a figure whose unit never varies. */
const suffixes: Readonly<Record<string, string>> = {
  Hz: '_hz',
  s: '_s',
  '%': '_percent',
  dB: '_db',
  '°': '_deg',
  'm/s^2': '_m_s2',
};

type Keyed = Pick<Figure<never>, 'key' | 'unit'> & { readonly jsonKey?: string };

/** `width_hz` of a width in Hz; `change_db` and `db` say it already. */
export function jsonKey({ key, unit, jsonKey: own }: Keyed): string {
  if (own !== undefined) return own;
  const suffix = typeof unit === 'string' ? (suffixes[unit] ?? '') : '';
  return `_${key}`.endsWith(suffix) ? key : key + suffix;
}

const jsonOf = (value: number | string | boolean | undefined): Json =>
  typeof value === 'number' ? finite(value) : (value ?? null);

/** What JSON has of one row. */
export function rowJson<Row, V>(
  columns: readonly Column<Row, V>[],
  row: Row,
  value: V,
  first: readonly string[] = [],
): [string, Json][] {
  const place = (key: string): number => (first.includes(key) ? first.indexOf(key) : first.length);
  const ordered = [...columns].sort((a, b) => place(a.key) - place(b.key));
  return ordered.flatMap((column): [string, Json][] => {
    if (isFigure(column) && column.json === undefined)
      return column.notIn === 'json and table' ? [] : [[jsonKey(column), jsonOf(column.read(row, value))]];
    const json = column.json?.(row, value);
    return json === undefined ? [] : [[column.key, json]];
  });
}

/** What JSON has of all rows. */
export function rowsJson<V, Row>(rows: Rows<V, Row>, value: V): Json[] {
  const { of, unit, names, columns, series, jsonFirst } = rows;
  const found = of(value);
  const common = unit === undefined || found.length === 0 ? undefined : unit(found[0], value).symbol;
  return found.map((row) => {
    const own = unit?.(row, value).symbol;
    const indices = series === undefined ? [] : Array.from(series.indices(row, value));
    const lists = (series?.columns ?? []).filter(({ json }) => json !== null);
    return Object.fromEntries<Json>([
      ...rowJson(names, row, value),
      ...(own === undefined || own === common ? [] : [['unit', own] as const]),
      ...rowJson(columns, row, value, jsonFirst),
      ...lists.map((column): [string, Json] => [
        jsonKey(column),
        column.json?.(row, value) ?? indices.map((index) => finite(column.at(row, index))),
      ]),
    ]);
  });
}

/** The unit of all rows' figures: the first row's, as JSON says it before them. */
export function firstUnit<V, Row>({ of, unit }: Rows<V, Row>, value: V): { unit?: string } {
  if (unit === undefined) return {};
  const [first] = of(value);
  return { unit: first === undefined ? '' : unit(first, value).symbol };
}

const cellOf = (value: number | string | boolean | undefined): Cell =>
  typeof value === 'number' ? finite(value) : value === undefined ? null : String(value);

const fixed = (symbol: string | undefined): string[] => [symbol ?? ''];

/** A column's name, the unit that all rows share, or none, and the name as people read it. */
function headOf<Row, V>(
  { key, heading = key, written, unit }: Pick<Figure<Row, V>, 'key' | 'heading' | 'written' | 'unit'>,
  rows: readonly Row[],
  value: V,
): [name: string, unit: string, written: string] {
  const symbols = typeof unit === 'function' ? [...new Set(rows.map((row) => unit(row, value).symbol))] : fixed(unit);
  const common = symbols.length === 1 ? symbols[0] : '';
  // What a value names, a condition say, stays as its author wrote it.
  if (typeof heading === 'function') return [heading(value), common, heading(value)];
  return [heading, common, written ?? heading.replaceAll('_', ' ')];
}

const tabulated = <Row, V>(columns: readonly Column<Row, V>[], value: V): Figure<Row, V>[] =>
  figuresIn(columns).filter(({ notIn, inTableOf }) => notIn === undefined && inTableOf?.(value) !== false);

/** One row of a table for each row, of the figures that a table can hold. */
export function figureCells<Row, V>(
  caption: string,
  columns: readonly Column<Row, V>[],
  rows: readonly Row[],
  value: V,
): Cells {
  const figures = tabulated(columns, value);
  return cellsOf(
    caption,
    figures.map((figure) => headOf(figure, rows, value)),
    rows.map((row) => figures.map(({ read, inWords = read }) => cellOf(inWords(row, value)))),
  );
}

/** The table of rows, which names the unit of each where they differ; of arrays it has one row an index. */
export function rowsCells<V, Row>(caption: string, rows: Rows<V, Row>, value: V): Cells {
  const { of, names, columns, series, unit } = rows;
  const found = of(value);
  const ownUnit: Figure<Row, V>[] = unit === undefined ? [] : [figure('unit', '', (row) => unit(row, value).symbol)];
  const differ = new Set(found.flatMap((row) => ownUnit.map(({ read }) => read(row, value)))).size > 1;
  const called = [...tabulated(names, value), ...(differ ? ownUnit : [])];
  if (series === undefined) return figureCells(caption, [...called, ...columns], found, value);
  return cellsOf(
    caption,
    [...called, ...series.columns].map((column: SeriesColumn<Row, V> | Figure<Row, V>) => headOf(column, found, value)),
    found.flatMap((row) => {
      const named = called.map(({ read }) => cellOf(read(row, value)));
      return Array.from(series.indices(row, value), (index) => [
        ...named,
        ...series.columns.map((column) => finite(column.at(row, index))),
      ]);
    }),
  );
}
