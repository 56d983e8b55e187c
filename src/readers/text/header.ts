import type { Refused } from '../../result/result.ts';
import { refuse } from '../messages.ts';
import { accelerationSize, looksLikeUnit, unitSymbol } from '../units.ts';
import { axisOf, readHeader } from '../names.ts';
import { isTimeName } from '../timeNames.ts';
import type { HeadLine } from './head.ts';
import { fieldsOf, isBlank, isComment, uncommented } from './fields.ts';
import { isMissing, parseNumber } from './number.ts';
import { withoutTail, type Grid } from './sniff.ts';
import { isStamp } from './stampForm.ts';

/** The rows above the numbers that name the columns. */
export interface Header {
  readonly names: readonly string[] | undefined;
  readonly units: readonly string[] | undefined;
  /** A row such as raw, calibrated. */
  readonly kinds: readonly string[] | undefined;
  readonly headerLine: number | undefined;
  readonly unitsLine: number | undefined;
  /** Index among the head's lines of the first line that belongs to the header (or of the first row). */
  readonly from: number;
}

const kindWord =
  /^(|:?-+:?|=+|raw|cal|calibrated|calib|filtered|unfiltered|ts|float|double|int|string|number|numeric|text|avg|smp)$/i;

function isUnitsRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => !isBlank(cell));
  return (
    filled.length > 0 &&
    filled.filter(looksLikeUnit).length >= 0.6 * filled.length &&
    !cells.some((cell) => axisOf(cell))
  );
}

function isKindsRow(cells: readonly string[]): boolean {
  return cells.some((cell) => !isBlank(cell)) && cells.every((cell) => kindWord.test(cell.trim()));
}

/** A line's cells where it can stand above the grid's columns: as many, and no number above a column of numbers. */
function cellsAbove(line: string, grid: Grid): string[] | undefined {
  const width = grid.columns.length;
  const text = isComment(line) ? uncommented(line) : line;
  for (const fields of splits(text, grid.delimiter)) {
    const split = withoutTail(fields, grid.tail);
    const ended = isBlank(split.at(-1) ?? '') && (grid.trailing || split.length === width + 1);
    const cells = ended || (grid.trailing && split.length === width + 1) ? split.slice(0, -1) : split;
    // R's write.table leaves no name above its column of row numbers.
    const short = cells.length === width - 1 && width > 2;
    const part = short ? splitSecond(grid) : undefined;
    const whole =
      part !== undefined ? [cells[0], part, ...cells.slice(1)] : short && looksNamed(cells) ? ['', ...cells] : cells;
    if (whole.length !== width) continue;
    const numeric = whole.some(
      (cell, k) =>
        grid.columns[k] !== 'text' &&
        !isMissing(cell) &&
        (parseNumber(cell, grid.decimal) !== undefined || isStamp(cell)),
    );
    if (!numeric && whole.some((cell) => !isBlank(cell))) return whole.map((cell) => cell.trim());
  }
  return undefined;
}

/** `14:22:31,500` between commas is two fields under one name: the unit of the second of them, or undefined. */
function splitSecond({ columns, rows }: Grid): string | undefined {
  if (columns[0] !== 'stamp' || columns[1] !== 'number') return undefined;
  for (const [digits, name] of [
    [3, 'ms'],
    [6, 'us'],
  ] as const)
    if (rows.every((row) => new RegExp(`^\\d{${digits}}$`).test(row[1]))) return name;
  return undefined;
}

const looksNamed = (cells: readonly string[]): boolean =>
  cells.filter((cell) => axisOf(readHeader(cell).name) ?? isTimeName(readHeader(cell).name)).length >= 2;

function* splits(text: string, delimiter: string): Generator<string[]> {
  yield fieldsOf(text, delimiter);
  // A line that is parted as the rows are is parted in no other way.
  if (delimiter !== ' ' && delimiter !== ',' && text.includes(delimiter)) return;
  for (const other of [',', ';', '\t', '|'])
    if (other !== delimiter && text.includes(other)) yield fieldsOf(text, other);
  if (text.length < 4000 && (delimiter === ' ' || delimiter === '\t')) {
    yield text.trim().split(/\s{2,}|\t/);
    yield text.match(/[^\s([{]+(?:\s*(?:\([^)]*\)|\[[^\]]*\]))?/g) ?? [];
  }
  if (delimiter !== ' ') yield fieldsOf(text, ' ');
}

/** Finds the header above a grid: names, then perhaps a row of kinds and a row of units. */
export function findHeader(lines: readonly HeadLine[], grid: Grid): Header {
  let names: string[] | undefined;
  let units: string[] | undefined;
  let kinds: string[] | undefined;
  let headerLine: number | undefined;
  let unitsLine: number | undefined;
  let from = grid.first;
  for (let i = grid.first - 1; i >= 0 && i >= grid.first - 8; i--) {
    const { text, line } = lines[i];
    if (isBlank(text) || isBlank(uncommented(text))) continue;
    const cells = cellsAbove(text, grid);
    if (!cells) {
      if (isComment(text)) continue;
      break;
    }
    if (!units && isUnitsRow(cells)) {
      units = cells;
      unitsLine = line;
    } else if (!kinds && isKindsRow(cells)) kinds = cells;
    else if (isNamesRow(cells, text)) {
      names = cells;
      headerLine = line;
    } else if (isComment(text)) continue;
    else break;
    from = i;
    if (names) break;
  }
  const groups = names && from > 0 ? groupsAbove(lines[from - 1], names, grid) : undefined;
  if (names && groups) {
    names = names.map((name, k) => grouped(groups[k], name));
    from--;
  }
  return { names, units, kinds, headerLine, unitsLine, from };
}

/**
 * A row above names that come twice, such as `,Accelerometer,,,Gyroscope,,`, tells them apart: what stands above each
 * column, or before it in that row.
 */
function groupsAbove({ text }: HeadLine, names: readonly string[], grid: Grid): string[] | undefined {
  const filled = names.filter((name) => name !== '');
  const twins = new Set(filled).size < filled.length;
  // Nothing else tells the unit of a bare x where it stands above it.
  const units =
    !twins &&
    filled.every(
      (name) => unitSymbol(readHeader(name).unitText ?? '') === undefined || isTimeName(readHeader(name).name),
    );
  if ((!twins && !units) || grid.delimiter === ' ') return undefined;
  const cells = withoutTail(fieldsOf(text, grid.delimiter), grid.tail).map((cell) => cell.trim());
  const named = cells.filter((cell) => cell !== '');
  if (cells.length !== names.length || named.length === 0 || named.length === cells.length) return undefined;
  if (units && !named.some((cell) => accelerationSize(unitSymbol(readHeader(cell).unitText ?? '')) !== undefined))
    return undefined;
  if (twins && named.length < 2) return undefined;
  if (named.some((cell) => !/\p{L}/u.test(cell))) return undefined;
  let group = '';
  return cells.map((cell) => (group = cell === '' ? group : cell));
}

/** A name with its group before it, and the group's unit where it has none of its own. */
function grouped(group: string, name: string): string {
  if (group === '') return name;
  const { name: quantity, unitText } = readHeader(group);
  return unitText === undefined || readHeader(name).unitText !== undefined
    ? `${group} ${name}`
    : `${quantity} ${name} (${unitText})`;
}

/** A comment is a header only where it reads as one; a sentence of remarks may have as many words as columns. */
function isNamesRow(cells: readonly string[], text: string): boolean {
  if (cells.some((cell) => cell.length > 80)) return false;
  if (!isComment(text)) return cells.length > 1 || !/[:=]/.test(text);
  return cells.some((cell) => axisOf(readHeader(cell).name) !== undefined || isTimeName(readHeader(cell).name));
}

/** Refuses a table where the line above the rows names columns, but not as many as there are. */
export function headerMismatch(
  path: string,
  lines: readonly HeadLine[],
  { columns, delimiter, first }: Grid,
  { names }: Header,
): Refused | undefined {
  const above = names ? undefined : lines.slice(0, first).findLast(({ text }) => !isBlank(text));
  if (above === undefined) return undefined;
  const { text, line } = above;
  const cells = fieldsOf(uncommented(text), delimiter).filter((cell) => !isBlank(cell));
  const [fields, width] = [cells.length, columns.length];
  if (fields < 2 || fields === width || !looksNamed(cells)) return undefined;
  const isSplit = delimiter === ',' && width === 2 * fields;
  return refuse('header-mismatch', { path, line, text, fields, columns: width, isSplit });
}
