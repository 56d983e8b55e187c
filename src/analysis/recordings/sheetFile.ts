import { readSheet, sheetNumber, type SheetColumn, type SheetText } from '../../readers/sheet.ts';
import { folderOf } from '../../result/fileNames.ts';
import { answered, refused, success, type Answer, type Result, type Warning } from '../../result/result.ts';
import type { Files } from '../../values/ports.ts';
import type { SheetRow, SheetValue } from '../../values/sheet.ts';
import { refuse, tell } from '../messages/recordings.ts';

/** Other words for the columns that mean something to Washboard. */
const synonyms: Readonly<Record<string, string>> = {
  filename: 'file',
  recording: 'file',
  reason: 'why',
  part: 'condition',
};

const yes = ['yes', 'y', 'true', '1', 'x'];
const no = ['', 'no', 'n', 'false', '0'];

/**
 * The run sheet in a file, its rows understood. Refuses what is not one file, no run sheet, or says of a run what can't
 * be understood; warns of runs that are excluded without a reason.
 * @param at the operand or option that names it
 */
export async function sheetIn(path: string, files: Files, at: string): Promise<Answer<SheetValue>> {
  const listed = await files.expand(path);
  if (!listed.ok) return refused({ ...listed.failure, at });
  const [file] = listed.value;
  if (listed.value.length !== 1) return refuse('sheet.many', { path, files: listed.value.length }, at);
  const found = await readSheet(await files.open(file));
  if (!found.ok) return refused({ ...found.failure, at });
  const rows = rowsOf(file, found.value, at);
  if (!rows.ok) return rows;
  const columns = found.value.columns.map(({ header }) => header);
  const sheet: SheetValue = { kind: 'sheet', file, columns, rows: rows.value };
  return answered(sheet, doubts(sheet));
}

/** Where a column stands, by its name or a synonym. */
function columnAt(columns: readonly SheetColumn[], name: string): number {
  const exact = columns.findIndex((column) => column.name === name);
  return exact >= 0 ? exact : columns.findIndex((column) => synonyms[column.name] === name);
}

function rowsOf(path: string, { columns, rows }: SheetText, at: string): Result<readonly SheetRow[]> {
  if (columnAt(columns, 'file') < 0) {
    const names = columns.map(({ name }) => name);
    return refuse('sheet.row', { path, why: 'no file', columns: names }, at);
  }
  const found: SheetRow[] = [];
  for (const { line, cells } of rows) {
    const cellOf = (name: string): string => cells[columnAt(columns, name)] ?? '';
    const row = rowOf(path, line, cellOf, found, at);
    if (!row.ok) return row;
    const facts = Object.fromEntries(columns.map(({ header }, index) => [header, cells[index]]));
    found.push({ ...row.value, facts });
  }
  return found.length === 0 ? refuse('sheet.row', { path, why: 'none' }, at) : success(found);
}

function rowOf(
  path: string,
  line: number,
  cellOf: (column: string) => string,
  before: readonly SheetRow[],
  at: string,
): Result<Omit<SheetRow, 'facts'>> {
  const [file, excluded, order] = ['file', 'excluded', 'order'].map(cellOf);
  const folder = folderOf(path);
  const isExcluded = yes.includes(excluded.toLowerCase());
  if (!isExcluded && !no.includes(excluded.toLowerCase()))
    return refuse('sheet.row', { path, line, why: 'excluded', cell: excluded }, at);
  if (order !== '' && sheetNumber(order) === undefined)
    return refuse('sheet.row', { path, line, why: 'order', cell: order }, at);
  const earlier = before.find((row) => row.file !== '' && row.file === folder + file);
  if (earlier !== undefined)
    return refuse('sheet.row', { path, line, why: 'twice', cell: file, earlier: earlier.line }, at);
  return success({
    line,
    file: file === '' ? '' : folder + file.split('\\').join('/'),
    condition: cellOf('condition') || undefined,
    order: sheetNumber(order),
    excluded: isExcluded,
    why: cellOf('why') || undefined,
  });
}

function doubts({ file, rows }: SheetValue): Warning[] {
  const lines = rows.filter(({ excluded, why }) => excluded && why === undefined).map(({ line }) => line);
  return lines.length === 0 ? [] : [tell('sheet.why', { file, lines })];
}
