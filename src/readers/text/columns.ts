import { declareWhole } from '../gaps.ts';
import { limits } from '../limits.ts';
import { leftOutFor } from '../messages/leftOut.ts';
import type { FirstRow } from '../recording.ts';
import type { ColumnText, StampColumn, TableColumn } from '../table.ts';
import { Body } from './body.ts';
import { fieldsOf, isBlank, isComment } from './fields.ts';
import type { FoundTable } from './findTable.ts';
import type { BareHead, TextHead } from './head.ts';
import { decimalsOf, parseNumber } from './number.ts';
import { decimalRows } from './plainHead.ts';
import { ColumnSink } from './sink.ts';
import { withoutTail, type Grid } from './sniff.ts';
import { plainStamp } from './spelt.ts';
import { StampReader } from './stamp.ts';
import { fractionDigits, stampForm, type StampForm } from './stampForm.ts';
import { tenTo } from '../../numbers/power.ts';

/** Rows that a body is to read. */
interface BodyStart {
  readonly path: string;
  readonly head: BareHead;
  readonly found: FoundTable;
  /** About how many bytes they are, for the room that their columns need. */
  readonly size: number;
  readonly decoder: TextDecoder;
  /** Of the first of them; that of the first row unless given. */
  readonly line?: number;
}

/** Whether some cells of the first rows stand in quotes, in which a line may end. */
export const isQuoted = (head: BareHead, { grid, labelled }: FoundTable): boolean =>
  !labelled && head.lines.slice(grid.first, grid.first + 50).some(({ text }) => text.includes('"'));

/** A body that reads rows. */
export function startBody({ path, head, found, size, decoder, line }: BodyStart): Body {
  const { grid, header, labelled } = found;
  const firstLine = line ?? head.lines[grid.first].line;
  const shown = head.lines.slice(grid.first);
  const rowBytes = Math.max(2, shown.reduce((sum, { text }) => sum + text.length + 1, 0) / Math.max(shown.length, 1));
  const capacity = Math.min(
    Math.ceil((1.02 * Math.max(size, head.bytes.length)) / rowBytes) + 64,
    // Room that is not needed costs nothing until it is written to; what is short is made larger on the way.
    Math.floor(limits.samples / 2 / grid.columns.length),
  );
  const sinks = grid.columns.map((kind, k) => {
    if (kind === 'empty') return new ColumnSink('skip');
    if (kind === 'number') return new ColumnSink('number');
    const form = kind === 'stamp' ? stampForm(filled(grid, k)) : undefined;
    return form ? new ColumnSink('stamp', 0, new StampReader(form)) : new ColumnSink('label');
  });
  const layout = {
    path,
    plan: {
      delimiter: grid.delimiter.charCodeAt(0),
      blanks: grid.delimiter === ' ',
      decimal: grid.decimal.charCodeAt(0),
      tail: grid.trailing ? grid.delimiter.charCodeAt(0) : grid.tail === '' ? 0 : grid.tail.charCodeAt(0),
      sinks,
    },
    delimiter: grid.delimiter,
    decimal: grid.decimal,
    tail: grid.tail,
    names: grid.columns.map((_, k) => (header.names?.[k] ? `column "${header.names[k]}"` : `column ${k + 1}`)),
    headerText: found.lines.find(({ line }) => line === header.headerLine)?.text,
    quoted: isQuoted(head, found),
    lineEnd: head.lineEnd,
    decoder,
    unlabel: labelled?.fields,
    isMarked: head.isMarked,
    checksums: head.checksums,
  };
  return new Body(layout, capacity, firstLine);
}

const filled = (grid: Grid, k: number): string[] => grid.rows.flatMap((row) => (isBlank(row[k] ?? '') ? [] : [row[k]]));

/** The text of a column's header, units and kinds, as far as it has such. */
const textsOf = ({ header: { names, units, kinds } }: FoundTable, k: number): ColumnText => ({
  header: names?.[k] === '' ? undefined : names?.[k],
  unitBelow: units?.[k],
  kindBelow: kinds?.[k],
});

/** Column `k` of the table, of the rows that were read. */
export function columnOf(found: FoundTable, k: number, body: Body): TableColumn {
  const { grid } = found;
  const sink = body.sinks[k];
  const texts = textsOf(found, k);
  const values =
    sink.values.length > 1.25 * body.rows + 4096 ? sink.values.slice(0, body.rows) : sink.values.subarray(0, body.rows);
  if (!sink.empty) declareWhole(values);
  sink.keepFactsFor(values);
  const cells = filled(grid, k);
  switch (sink.kind) {
    case 'number': {
      const own = (): number => Math.max(...cells.slice(0, decimalRows).map((cell) => decimalsOf(cell, grid.decimal)));
      const decimals = found.decimals?.[k] ?? own();
      return { ...texts, kind: 'number', values, decimals };
    }
    case 'stamp':
      return { ...texts, ...stampColumn(sink.stamps!, cells), values };
    case 'label':
      return { ...texts, kind: 'label', values, labels: sink.labels };
    case 'skip': {
      const isEmpty = grid.columns[k] === 'empty';
      const why = isEmpty ? leftOutFor('column.no-number', {}) : leftOutFor('column.text', { texts: [], count: 0 });
      return { ...texts, kind: 'other', why, cells };
    }
  }
}

/** What is known of stamps by their form, and by some of their cells. */
function stampColumn(
  { form, base, zone }: StampReader,
  cells: readonly string[],
): Omit<StampColumn, 'header' | 'values'> {
  const plain = cells.slice(0, 200).map((cell) => (form.worded ? (plainStamp(cell.trim()) ?? cell) : cell));
  const digits = Math.max(0, ...plain.map(fractionDigits));
  return {
    kind: 'stamp',
    base: base === undefined ? undefined : base * 86400,
    clock: form.clock !== 'none',
    style: styleOf(form),
    zone,
    quantum: quantumOf(form, cells, digits),
    doubtful: form.doubtful,
  };
}

/** The step of a spelling in s. */
function quantumOf({ clock, fraction, worded }: StampForm, cells: readonly string[], digits: number): number {
  if (clock === 'none') return 86_400;
  if (fraction === 'milliseconds') return 1e-3;
  const colons = (cell: string): number =>
    cell
      .trim()
      .replace(/[+-]\d{2}:?\d{2}$/, '')
      .split(':').length - 1;
  const isOfMinutes = worded === true && clock === 'hms' && digits === 0 && cells.every((cell) => colons(cell) === 1);
  return isOfMinutes ? 60 : tenTo(-digits);
}

function styleOf({ date, clock }: StampForm): string {
  if (clock === 'none') return 'date';
  if (clock === 'ms') return 'clock m:s';
  return date === 'none' ? 'clock' : date === 'ymd' ? 'iso8601' : 'date and clock';
}

/** The first rows as they stand and as they are read. */
export function firstRows(head: TextHead, found: FoundTable): FirstRow[] {
  const { grid, labelled } = found;
  const rows: FirstRow[] = [];
  for (const { text, line } of head.lines.slice(grid.first)) {
    if (isBlank(text) || isComment(text)) continue;
    const fields = withoutTail(fieldsOf(labelled?.fields(text) ?? text, grid.delimiter), grid.tail).slice(
      0,
      grid.columns.length,
    );
    rows.push({ line, text, values: fields.map((cell) => parseNumber(cell, grid.decimal) ?? cell.trim()) });
    if (rows.length === 6) break;
  }
  return rows;
}
