import { factsOf } from './columnFacts.ts';
import { hasGaps } from './gaps.ts';
import { finding } from './messages.ts';
import type { Finding, ReadOptions } from './recording.ts';
import { columnName, type NumberColumn, type Table, type TableColumn } from './table.ts';

/** A table in which cells that stand for no reading are empty. */
export interface Bared {
  readonly table: Table;
  readonly findings: readonly Finding[];
}

/** Beyond so many times every other reading a number made of nines is no reading. */
const farther = 10;

/** No reading, time or count is larger: sums of fourth powers, which levels take, stay finite far below. */
const largest = 1e60;

/**
 * A table without the numbers that a logger writes where it has no reading: those that are stated, or numbers made of
 * nines alone (9999, -99999, 9999.99) that lie far beyond all others of their column; and without those that are larger
 * than anything that is measured.
 */
export function withoutSentinels(table: Table, { sentinels = [] }: ReadOptions): Bared {
  const nines: Nines[] = [];
  const columns = table.columns.map((given, index): TableColumn => {
    if (given.kind !== 'number') return given;
    const column = withoutDamage(given);
    const seen = sentinels.length > 0 ? undefined : ninesIn(column.values);
    const found = seen === undefined ? sentinels : [seen];
    if (found.length === 0) return column;
    const first = column.values.findIndex((value) => found.includes(value));
    if (first < 0) return column;
    if (seen !== undefined) nines.push({ column: columnName(column, index), value: seen, first });
    return emptied(column, found);
  });
  const isBared = columns.some((column, k) => column !== table.columns[k]);
  return { table: isBared ? { ...table, columns } : table, findings: findingsOf(nines, table) };
}

interface Nines {
  readonly column: string;
  readonly value: number;
  /** The first row that holds it. */
  readonly first: number;
}

/** One finding for each number, whatever the columns that hold it. */
function findingsOf(nines: readonly Nines[], table: Table): Finding[] {
  return [...new Set(nines.map(({ value }) => value))].map((value) => {
    const own = nines.filter((one) => one.value === value);
    const line = table.lineOf(Math.min(...own.map(({ first }) => first)));
    return finding('sentinel', 'warning', { columns: own.map(({ column }) => column), value, line });
  });
}

/** The number of nines by which some readings of a column stand out from all others, if there is one. */
function ninesIn(values: Float64Array): number | undefined {
  const { low, high } = factsOf(values);
  const extreme = high > -low ? high : low;
  if (!/^-?(?:9{4,}|9{2,}\.9{2,})$/.test(String(extreme))) return undefined;
  const limit = Math.abs(extreme) / farther;
  return values.every((value) => value === extreme || !(Math.abs(value) > limit)) ? extreme : undefined;
}

const emptied = (column: NumberColumn, sentinels: readonly number[]): NumberColumn =>
  withEmpty(column, (value) => sentinels.includes(value));

/** A column without numbers that only a damaged digit or an exponent makes. */
function withoutDamage(column: NumberColumn): NumberColumn {
  const { low, high } = factsOf(column.values);
  return Math.max(high, -low) > largest ? withEmpty(column, (value) => Math.abs(value) > largest) : column;
}

function withEmpty(column: NumberColumn, isEmpty: (value: number) => boolean): NumberColumn {
  const values = column.values.map((value) => (isEmpty(value) ? NaN : value));
  hasGaps(values);
  return { ...column, values };
}
