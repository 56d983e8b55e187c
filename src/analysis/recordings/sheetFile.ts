import { readSheet, sheetNumber, type SheetColumn, type SheetText } from '../../readers/sheet.ts';
import type { SheetRow, SheetValue } from '../../values/sheet.ts';
import { refuse, type Failure, type Warning } from '../../result/result.ts';
import type { Files } from '../../values/ports.ts';

type Refused = { readonly ok: false; readonly failure: Failure };

export interface ReadSheet {
  readonly sheet: SheetValue;
  readonly warnings: readonly Warning[];
}

/** Other words for the columns that mean something to Washboard. */
const synonyms: Readonly<Record<string, string>> = {
  filename: 'file',
  recording: 'file',
  reason: 'why',
  part: 'condition',
};

const yes = ['yes', 'y', 'true', '1', 'x'];
const no = ['', 'no', 'n', 'false', '0'];

/** The run sheet in a file, its rows understood; or why it can't be. @param at the operand or option that names it */
export async function sheetIn(path: string, files: Files, at: string): Promise<ReadSheet | Refused> {
  const listed = await files.expand(path);
  if (!listed.ok) return refuse(listed.failure.code, listed.failure.message, at);
  if (listed.value.length !== 1)
    return refuse('sheet.many', `"${path}" stands for ${listed.value.length} files, and a run sheet is one.`, at);
  const found = await readSheet(await files.open(listed.value[0]));
  if (!found.ok) return refuse(found.failure.code, found.failure.message, at);
  const rows = rowsOf(listed.value[0], found.value);
  if (typeof rows === 'string') return refuse('sheet.row', rows, at);
  const sheet: SheetValue = {
    kind: 'sheet',
    file: listed.value[0],
    columns: found.value.columns.map(({ header }) => header),
    rows,
  };
  return { sheet, warnings: doubts(sheet) };
}

/** Where a column stands, by its name or a synonym. */
function columnAt(columns: readonly SheetColumn[], name: string): number {
  const exact = columns.findIndex((column) => column.name === name);
  return exact >= 0 ? exact : columns.findIndex((column) => synonyms[column.name] === name);
}

function rowsOf(path: string, { columns, rows }: SheetText): SheetRow[] | string {
  const at = (name: string): number => columnAt(columns, name);
  if (at('file') < 0)
    return `${path} has no column "file": it has ${columns.map(({ name }) => name).join(', ')}, and one must name each run's recording.`;
  const folder = path.includes('/') ? path.slice(0, path.lastIndexOf('/') + 1) : '';
  const found: SheetRow[] = [];
  for (const { line, cells } of rows) {
    const cellOf = (name: string): string => (at(name) < 0 ? '' : cells[at(name)]);
    const excluded = cellOf('excluded').toLowerCase();
    if (!yes.includes(excluded) && !no.includes(excluded))
      return `${path}:${line}: "${cellOf('excluded')}" under excluded is neither yes nor no: write why in its own column.`;
    const order = cellOf('order');
    if (order !== '' && sheetNumber(order) === undefined)
      return `${path}:${line}: "${order}" under order is no number: give each run's place in the day, counted from 1.`;
    const file = cellOf('file');
    const earlier = found.find((row) => row.file !== '' && row.file === folder + file);
    if (earlier !== undefined) return `${path}:${line}: ${file} stands in line ${earlier.line} already.`;
    found.push({
      line,
      file: file === '' ? '' : folder + file.split('\\').join('/'),
      condition: cellOf('condition') || undefined,
      order: sheetNumber(order),
      excluded: yes.includes(excluded),
      why: cellOf('why') || undefined,
      facts: Object.fromEntries(columns.map(({ header }, index) => [header, cells[index]])),
    });
  }
  if (found.length === 0) return `${path} has a header and no runs.`;
  return found;
}

function doubts({ file, rows }: SheetValue): Warning[] {
  const silent = rows.filter(({ excluded, why }) => excluded && why === undefined);
  if (silent.length === 0) return [];
  const lines = silent.map(({ line }) => line).join(', ');
  return [
    {
      code: 'sheet.why',
      message: `${file} excludes ${silent.length === 1 ? 'a run' : 'runs'} without saying why (line ${lines}): a reader must be able to judge it.`,
    },
  ];
}

/** A header without its unit, in lower case: `speed (m/s)` is `speed`. */
export const bareHeader = (header: string): string =>
  header
    .replace(/\s*[([][^()[\]]*[)\]]\s*$/, '')
    .trim()
    .toLowerCase();

/** A cell of a row by the column's name without its unit. */
export function factOf(facts: Readonly<Record<string, string>>, name: string): string | undefined {
  const header = Object.keys(facts).find((one) => bareHeader(one) === name.toLowerCase());
  return header === undefined ? undefined : facts[header];
}
