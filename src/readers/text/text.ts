import { decoderFor, isBinary, sniffEncoding } from '../encoding.ts';
import { declareWhole } from '../gaps.ts';
import { limits } from '../limits.ts';
import { asUtf8, rejoined, takeHead, type Pieces } from '../pieces.ts';
import type { Finding, FirstRow, Layout, ReadOptions, ReadWatch } from '../recording.ts';
import { Refused, place } from '../refusal.ts';
import type { Table, TableColumn } from '../table.ts';
import { Body } from './body.ts';
import { fieldsOf, isBlank, isComment, uncommented } from './fields.ts';
import { findHeader, refuseMismatch, type Header } from './header.ts';
import { findLabelled, type Labelled } from './labelled.ts';
import { decimalsOf, parseNumber } from './number.ts';
import { readPreamble, type Preamble } from './preamble.ts';
import { ColumnSink } from './sink.ts';
import { gridOf, refuseSplitDecimals, sniff, withoutTail, type Grid, type HeadLine } from './sniff.ts';
import { plainStamp } from './spelt.ts';
import { StampReader } from './stamp.ts';
import { fractionDigits, stampForm } from './stampForm.ts';

/** A text read as a table, with what its lines above the rows say. */
export interface TextReading {
  readonly table: Table;
  readonly preamble: Preamble;
  readonly layout: Layout;
  readonly findings: readonly Finding[];
}

interface Head {
  readonly lines: readonly HeadLine[];
  readonly bytes: Uint8Array;
  readonly lineEnd: number;
}

/**
 * Reads delimited text. `size` is the file's size in bytes, and `packing` how many times larger its text may be. Throws `Refused` where it can't be
 * read in one way only.
 */
export async function readText(
  path: string,
  pieces: Pieces,
  size: number,
  options: ReadOptions,
  watch: ReadWatch,
  packing = 1,
): Promise<TextReading> {
  const raw = await takeHead(pieces, 4096);
  const { encoding, mark } = sniffEncoding(raw.bytes);
  if (isBinary(raw.bytes, encoding)) {
    throw new Refused(
      'not-text',
      `${path}: this is neither text nor another format that can be read here (WAV, Parquet, gzip of text): export the recording as CSV.`,
    );
  }
  const rest = rejoined(raw.bytes.subarray(mark), pieces);
  const wide = encoding === 'UTF-16LE' || encoding === 'UTF-16BE';
  const text = wide ? asUtf8(encoding === 'UTF-16LE' ? 'utf-16le' : 'utf-16be', rest) : rest;
  const taken = await takeHead(text, limits.head);
  // Pieces are larger than what is looked at.
  const looked = {
    bytes: taken.bytes.subarray(0, limits.head),
    ended: taken.ended && taken.bytes.length <= limits.head,
  };
  const whole = sniffEncoding(looked.bytes).encoding;
  const inUse = encoding === 'UTF-8' && whole === 'Latin-1' ? 'Latin-1' : encoding;
  const decoder = decoderFor(inUse);
  const head = readHead(path, looked.bytes, looked.ended, decoder, options.skip ?? 0);
  const found = findTable(path, head, options);
  const body = startBody(path, head, found, size * packing, decoder);
  const start = byteOfLine(head, head.lines[found.grid.first].line);
  await body.read(rejoined(taken.bytes.subarray(start), text), size, watch);
  const { grid, header } = found;
  const columns = grid.columns.map((kind, k) => columnOf(found, kind, k, body));
  const table: Table = { columns, rows: body.rows, named: header.names !== undefined, lineOf: body.lineOf };
  const layout: Layout = {
    format: 'delimited text',
    encoding: inUse,
    delimiter: found.labelled ? 'labels' : grid.delimiter,
    decimal: grid.decimal,
    preamble: found.preamble.lines,
    keys: found.preamble.keys,
    ...(header.headerLine === undefined ? {} : { headerLine: header.headerLine }),
    ...(header.unitsLine === undefined ? {} : { unitsLine: header.unitsLine }),
    firstRowLine: head.lines[grid.first].line,
    rows: body.rows,
    firstRows: firstRows(head, found),
  };
  return { table, preamble: restated(found.preamble, body, grid.decimal), layout, findings: body.findings };
}

/** A preamble whose rate comments further down take back: where a recording was started anew at another, none holds. */
function restated(preamble: Preamble, { comments }: Body, decimal: Grid['decimal']): Preamble {
  if (preamble.rate === undefined || comments.length === 0) return preamble;
  const later = readPreamble(comments, decimal).rate ?? preamble.rate;
  return Math.abs(later / preamble.rate - 1) < 1e-6 ? preamble : { ...preamble, rate: undefined };
}

function readHead(path: string, bytes: Uint8Array, ended: boolean, decoder: TextDecoder, skip: number): Head {
  let last = bytes.length;
  while (last > 0 && (bytes[last - 1] === 0 || bytes[last - 1] === 26)) last--;
  const text = decoder.decode(bytes.subarray(0, last));
  const parts = text.split(/\r\n|\n|\r/);
  if (!ended || parts[parts.length - 1] === '') parts.pop();
  if (parts.length === 0 && !ended) {
    throw new Refused(
      'line-too-long',
      `${path}: the first line is longer than ${limits.head / 1024} KiB, which no row of a recording is: check the file.`,
    );
  }
  const lines = parts.map((part, i) => ({ text: part, line: i + 1 })).slice(skip, skip + 2000);
  if (lines.length === 0) {
    throw new Refused(
      'empty',
      skip > 0
        ? `${path}: skip ${skip} passes over the whole file, which has ${parts.length} lines.`
        : `${path}: the file is empty.`,
    );
  }
  return { lines, bytes, lineEnd: text.includes('\n') ? 10 : 13 };
}

interface Found {
  readonly grid: Grid;
  readonly header: Header;
  readonly preamble: Preamble;
  readonly labelled: Labelled | undefined;
  readonly lines: readonly HeadLine[];
}

const spelt: Readonly<Record<string, string>> = {
  tab: '\t',
  '\\t': '\t',
  space: ' ',
  comma: ',',
  semicolon: ';',
  pipe: '|',
  bar: '|',
};

function findTable(path: string, head: Head, options: ReadOptions): Found {
  const stated = /^"?sep=(.|\\t)"?\s*$/i.exec(head.lines[0].text)?.[1];
  const lines = stated === undefined ? head.lines : head.lines.slice(1);
  const wanted = options.delimiter === undefined ? stated : options.delimiter;
  const delimiter = wanted === undefined ? undefined : (spelt[wanted.toLowerCase()] ?? wanted);
  if (delimiter !== undefined && delimiter.length !== 1) {
    throw new Refused(
      'delimiter',
      `${path}: the delimiter "${delimiter}" is not one character: write one, or "tab" or "space".`,
    );
  }
  const labelled =
    wanted === undefined
      ? findLabelled(
          lines.filter(({ text }) => !isBlank(text)),
          options.decimal,
        )
      : undefined;
  const asTable = labelled && !hasGrid(path, lines, options) ? relabel(path, lines, labelled) : undefined;
  if (asTable) return asTable;
  const headerFields = (grid: Grid): number | undefined => fieldsAbove(lines, grid);
  const grid = withLastColumn(lines, sniff(path, lines, { delimiter, decimal: options.decimal, headerFields }));
  refuseWidth(path, grid);
  const header = findHeader(lines, grid);
  refuseMismatch(path, lines, grid, header);
  refuseTableAbove(path, lines, grid);
  if (!header.names && delimiter === undefined) refuseSplitDecimals(path, lines, grid);
  const above = lines.slice(0, grid.first).filter((_, i) => i < header.from || isComment(lines[i].text));
  const preamble = readPreamble(
    above.filter(({ line }) => line !== header.headerLine && line !== header.unitsLine).map(({ text }) => text),
    grid.decimal,
  );
  return {
    grid: { ...grid, first: grid.first + head.lines.length - lines.length },
    header,
    preamble,
    labelled: undefined,
    lines,
  };
}

/** A table above the one that was found, parted otherwise, is not to be lost among the lines of a preamble. */
function refuseTableAbove(path: string, lines: readonly HeadLine[], grid: Grid): void {
  if (grid.first < longTable) return;
  const above = lines.slice(0, grid.first);
  for (const delimiter of [',', ';', '\t', ' ']) {
    const other = gridOf(above, delimiter, grid.decimal);
    const numbers = other?.columns.filter((kind) => kind === 'number').length ?? 0;
    if (other === undefined || numbers < 2 || other.rows.length < longTable) continue;
    const [from, to] = [above[other.first].line, lines[grid.first].line];
    throw new Refused(
      'two-tables',
      `${place(path, to)}: here begins a table of another form than the one from line ${from} on: cut the file in two before this line, or pass over what is above it with skip ${to - 1}.`,
    );
  }
}

/** Rows above the table from which they are one of their own. */
const longTable = 20;

/** A last column that is empty in the rows looked at, but has a name, is a column all the same: of remarks, say. */
function withLastColumn(lines: readonly HeadLine[], grid: Grid): Grid {
  if (!grid.trailing) return grid;
  const above = lines.slice(0, grid.first).findLast(({ text }) => !isBlank(text));
  const names = above === undefined ? [] : fieldsOf(uncommented(above.text), grid.delimiter);
  const width = grid.columns.length + 1;
  return names.length === width && !isBlank(names[width - 1])
    ? { ...grid, columns: [...grid.columns, 'empty'], trailing: false }
    : grid;
}

function refuseWidth(path: string, grid: Grid): void {
  if (grid.columns.length <= limits.columns) return;
  throw new Refused(
    'too-many-columns',
    `${path}: the rows have more than ${limits.columns} columns, the most that a recording may have: cut the file into parts.`,
  );
}

function fieldsAbove(lines: readonly HeadLine[], grid: Grid): number | undefined {
  for (let i = grid.first - 1; i >= 0; i--) {
    if (isBlank(lines[i].text)) continue;
    const cells = withoutTail(fieldsOf(uncommented(lines[i].text), grid.delimiter), grid.tail);
    // A name that holds another delimiter speaks for that one.
    const doubtful = cells.some((cell) => parseNumber(cell, grid.decimal) !== undefined || /[,;|\t]/.test(cell));
    return doubtful ? undefined : cells.length;
  }
  return undefined;
}

/** Whether the lines read as a table without their words being taken out: most of their columns are no words. */
function hasGrid(path: string, lines: readonly HeadLine[], options: ReadOptions): boolean {
  try {
    const grid = sniff(path, lines, { decimal: options.decimal, headerFields: (found) => fieldsAbove(lines, found) });
    const wordy = grid.columns.some(
      (kind, k) =>
        kind === 'text' && grid.rows.slice(0, 20).every((row) => /[\p{L}[\](){}']/u.test(row[k]) && /\d/.test(row[k])),
    );
    const still = (k: number): boolean => grid.rows.slice(0, 20).every((row) => row[k] === grid.rows[0][k]);
    // Words between numbers look like columns of one text each where blanks part the fields.
    const words = grid.columns.filter((kind, k) => kind === 'text' && still(k)).length;
    return !wordy && !(grid.delimiter === ' ' && words > 1);
  } catch (error) {
    // An ambiguous table is one all the same: its own refusal is the better answer.
    return error instanceof Refused && error.failure.code.startsWith('ambiguous');
  }
}

function relabel(path: string, lines: readonly HeadLine[], labelled: Labelled): Found | undefined {
  const rows = lines.flatMap((line) => {
    const text = labelled.fields(line.text);
    return text === undefined ? [] : [{ text, line: line.line }];
  });
  const { decimal } = labelled;
  const grid = sniff(path, rows, { delimiter: '\t', decimal, headerFields: () => undefined });
  const first = lines.findIndex(({ line }) => line === rows[grid.first].line);
  const above = namesAbove(lines.slice(0, first), grid.columns.length);
  const preamble = readPreamble(
    lines.slice(0, first).flatMap(({ text, line }) => (line === above?.line ? [] : [text])),
    decimal,
  );
  const own = labelled.names.some((name) => name !== '') ? labelled.names : undefined;
  const header: Header = {
    names: own ?? above?.names,
    units: labelled.units.some((unit) => unit !== '') ? labelled.units : undefined,
    kinds: undefined,
    headerLine: own ? undefined : above?.line,
    unitsLine: undefined,
    from: first,
  };
  return { grid: { ...grid, first }, header, preamble, labelled, lines };
}

/** A row of names right above labelled lines: as many as there are values, and no number among them. */
function namesAbove(lines: readonly HeadLine[], width: number): { names: string[]; line: number } | undefined {
  const last = lines.filter(({ text }) => !isBlank(text)).at(-1);
  if (!last || /\d/.test(last.text.replace(/\p{L}\d+/gu, ''))) return undefined;
  for (const delimiter of [',', ';', '\t', '|']) {
    const names = fieldsOf(uncommented(last.text), delimiter).map((name) => name.trim().replace(/^'(.*)'$/, '$1'));
    if (names.length === width && width > 1) return { names, line: last.line };
  }
  return undefined;
}

/** Where a 1-based line begins in the head's bytes. */
function byteOfLine(head: Head, line: number): number {
  let at = 0;
  for (let passed = 1; passed < line; at++) {
    const c = head.bytes[at];
    if (c === 10 || (c === 13 && head.bytes[at + 1] !== 10)) passed++;
  }
  return at;
}

function startBody(path: string, head: Head, found: Found, size: number, decoder: TextDecoder): Body {
  const { grid, header, labelled } = found;
  const firstLine = head.lines[grid.first].line;
  const shown = head.lines.slice(grid.first);
  const rowBytes = Math.max(2, shown.reduce((sum, { text }) => sum + text.length + 1, 0) / Math.max(shown.length, 1));
  const capacity = Math.min(
    Math.ceil((1.02 * Math.max(size, head.bytes.length)) / rowBytes) + 64,
    // Room that is not needed costs nothing until it is written to; what is short is made larger on the way.
    Math.floor(limits.samples / 2 / grid.columns.length),
  );
  const sinks = grid.columns.map((kind, k) => {
    if (kind === 'empty') return new ColumnSink('skip', 0);
    if (kind === 'number') return new ColumnSink('number', capacity);
    const form = kind === 'stamp' ? stampForm(filled(grid, k)) : undefined;
    return form ? new ColumnSink('stamp', capacity, new StampReader(form)) : new ColumnSink('label', capacity);
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
    quoted: !labelled && head.lines.slice(grid.first, grid.first + 50).some(({ text }) => text.includes('"')),
    lineEnd: head.lineEnd,
    decoder,
    unlabel: labelled?.fields,
  };
  return new Body(layout, capacity, firstLine);
}

const filled = (grid: Grid, k: number): string[] => grid.rows.flatMap((row) => (isBlank(row[k] ?? '') ? [] : [row[k]]));

const styles = { hms: 'clock', ms: 'clock m:s', none: 'date' } as const;

function columnOf(found: Found, kind: Grid['columns'][number], k: number, body: Body): TableColumn {
  const { grid, header } = found;
  const sink = body.sinks[k];
  const texts = { header: header.names?.[k] || undefined, unitBelow: header.units?.[k], kindBelow: header.kinds?.[k] };
  const values =
    sink.values.length > 1.25 * body.rows + 4096 ? sink.values.slice(0, body.rows) : sink.values.subarray(0, body.rows);
  if (!sink.empty) declareWhole(values);
  if (sink.kind === 'number') {
    const decimals = Math.max(
      ...filled(grid, k)
        .slice(0, 200)
        .map((cell) => decimalsOf(cell, grid.decimal)),
    );
    return { ...texts, kind: 'number', values, decimals };
  }
  if (sink.kind === 'stamp') {
    const { form, base, zone } = sink.stamps!;
    const digits = Math.max(
      0,
      ...filled(grid, k)
        .slice(0, 200)
        .map((cell) => fractionDigits(form.worded ? (plainStamp(cell.trim()) ?? cell) : cell)),
    );
    const quantum = form.clock === 'none' ? 86400 : form.fraction === 'milliseconds' ? 1e-3 : 10 ** -digits;
    const style =
      form.clock === 'hms' && form.date !== 'none'
        ? form.date === 'ymd'
          ? 'iso8601'
          : 'date and clock'
        : styles[form.clock];
    const clock = form.clock !== 'none';
    return {
      ...texts,
      kind: 'stamp',
      values,
      base: base === undefined ? undefined : base * 86400,
      clock,
      style,
      zone,
      quantum,
      doubtful: form.doubtful,
    };
  }
  if (sink.kind === 'label') return { ...texts, kind: 'label', values, labels: sink.labels };
  const why = kind === 'empty' ? 'it holds no number' : 'it holds text';
  return { ...texts, kind: 'other', why, cells: filled(grid, k) };
}

function firstRows(head: Head, found: Found): FirstRow[] {
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
