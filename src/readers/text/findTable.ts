import { success, type Refused, type Result } from '../../result/result.ts';
import { limits } from '../limits.ts';
import { refuse } from '../messages.ts';
import type { ReadOptions } from '../recording.ts';
import type { HeadLine } from './head.ts';
import { fieldsOf, isBlank, isComment, uncommented } from './fields.ts';
import { findHeader, headerMismatch, type Header } from './header.ts';
import { findLabelled, type Labelled } from './labelled.ts';
import { parseNumber } from './number.ts';
import { readPreamble, type Preamble } from './preamble.ts';
import { gridOf, sniff, splitDecimals, withoutTail, type Grid, type RowForm } from './sniff.ts';

/** The one reading of a head's lines as a table below a header and a preamble. */
export interface FoundTable {
  readonly grid: Grid;
  readonly header: Header;
  readonly preamble: Preamble;
  /** How words around the numbers are taken away, where the lines are labelled. */
  readonly labelled: Labelled | undefined;
  readonly lines: readonly HeadLine[];
  /** How many decimals each column is written with, where that is known of more rows than the grid's. */
  readonly decimals?: readonly number[];
}

/** Names that `load` takes for a delimiter. */
const delimiterNames: Readonly<Record<string, string>> = {
  tab: '\t',
  '\\t': '\t',
  space: ' ',
  comma: ',',
  semicolon: ';',
  pipe: '|',
  bar: '|',
};

/**
 * Finds the table in the head's lines; refuses where there is none, or more than one way to read it.
 * @param only the form of its rows where no other is possible
 */
export function findTable(
  path: string,
  head: readonly HeadLine[],
  options: ReadOptions,
  only?: RowForm,
): Result<FoundTable> {
  const stated = /^"?sep=(.|\\t)"?\s*$/i.exec(head[0].text)?.[1];
  const lines = stated === undefined ? head : head.slice(1);
  const wanted = options.delimiter ?? stated;
  const delimiter = wanted === undefined ? undefined : (delimiterNames[wanted.toLowerCase()] ?? wanted);
  if (delimiter !== undefined && delimiter.length !== 1) return refuse('delimiter', { path, delimiter });
  const filled = lines.filter(({ text }) => !isBlank(text));
  const labelled = wanted === undefined && only === undefined ? findLabelled(filled, options.decimal) : undefined;
  const headerFields = (grid: Grid): number | undefined => fieldsAbove(lines, grid);
  const found = sniff(path, lines, { delimiter, decimal: options.decimal, headerFields, only });
  if (labelled && !isGrid(found)) return relabel(path, lines, labelled);
  if (!found.ok) return found;
  const grid = withLastColumn(lines, found.value);
  const header = findHeader(lines, grid);
  const refused =
    (grid.columns.length > limits.columns ? refuse('too-many-columns', { path }) : undefined) ??
    headerMismatch(path, lines, grid, header) ??
    tableAbove(path, lines, grid) ??
    (header.names || delimiter !== undefined ? undefined : splitDecimals(path, lines, grid));
  if (refused) return refused;
  const above = lines.slice(0, grid.first).filter(({ text }, i) => i < header.from || isComment(text));
  const remarks = above.filter(({ line }) => line !== header.headerLine && line !== header.unitsLine);
  const preamble = readPreamble(
    remarks.map(({ text }) => text),
    grid.decimal,
  );
  const first = grid.first + head.length - lines.length;
  return success({ grid: { ...grid, first }, header, preamble, labelled: undefined, lines });
}

/** Rows above the table from which they are one of their own. */
const longTable = 20;

/** A table above the one that was found, parted otherwise, is not to be lost among the lines of a preamble. */
function tableAbove(path: string, lines: readonly HeadLine[], grid: Grid): Refused | undefined {
  if (grid.first < longTable) return undefined;
  const above = lines.slice(0, grid.first);
  for (const delimiter of [',', ';', '\t', ' ']) {
    const other = gridOf(above, delimiter, grid.decimal);
    const numbers = other?.columns.filter((kind) => kind === 'number').length ?? 0;
    if (other === undefined || numbers < 2 || other.rows.length < longTable) continue;
    return refuse('two-tables', { path, from: above[other.first].line, to: lines[grid.first].line });
  }
  return undefined;
}

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
function isGrid(found: Result<Grid>): boolean {
  // An ambiguous table is one all the same: its own refusal is the better answer.
  if (!found.ok) return found.failure.code.startsWith('ambiguous');
  const { columns, rows, delimiter } = found.value;
  const first = rows.slice(0, 20);
  const texts = [...columns.keys()].filter((k) => columns[k] === 'text');
  const isWordy = texts.some((k) => first.every((row) => /[\p{L}[\](){}']/u.test(row[k]) && /\d/.test(row[k])));
  // Words between numbers look like columns of one text each where blanks part the fields.
  const words = texts.filter((k) => first.every((row) => row[k] === rows[0][k])).length;
  return !isWordy && !(delimiter === ' ' && words > 1);
}

function relabel(path: string, lines: readonly HeadLine[], labelled: Labelled): Result<FoundTable> {
  const rows = lines.flatMap((line) => {
    const text = labelled.fields(line.text);
    return text === undefined ? [] : [{ text, line: line.line }];
  });
  const { decimal } = labelled;
  const found = sniff(path, rows, { delimiter: '\t', decimal, headerFields: () => undefined });
  if (!found.ok) return found;
  const grid = found.value;
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
  return success({ grid: { ...grid, first }, header, preamble, labelled, lines });
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
