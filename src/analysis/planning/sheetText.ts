import { bareName } from '../../result/fileNames.ts';
import { csvOf } from '../../values/csv.ts';
import { conditionNamed } from '../../values/order.ts';

/** Columns of a run sheet that is still to be filled in. */
const sheetColumns = [
  'file',
  'condition',
  'order',
  'pair',
  'day',
  'date',
  'speed (m/s)',
  'mass (kg)',
  'pressure (bar)',
  'note',
  'excluded',
  'why',
] as const;

/** Whether a text begins as a run sheet does, whoever wrote it: with columns for the file and the condition. */
export function isSheetHead(text: string): boolean {
  const header = text.split(/\r\n|\n|\r/).find((line) => line.trim() !== '' && !line.startsWith('#')) ?? '';
  const names = header.split(/[,;\t]/).map((name) =>
    name
      .replace(/["\ufeff]/g, '')
      .trim()
      .toLowerCase(),
  );
  return names.includes('file') && names.includes('condition');
}

/**
 * A run sheet to be filled in, one row a recording that is there.
 *
 * @param files names as they are to stand in the sheet, relative to its folder; the condition is guessed from each, as its
 * name without the number at its end
 */
export function sheetOfFiles(files: readonly string[]): string {
  return sheetText(files.map((file) => ({ file, condition: conditionOf(file), order: undefined })));
}

/**
 * A run sheet to be filled in, one row a run that is still to be made.
 *
 * @param sequence the letter of each run's condition, in the order in which they are to be made
 * @param conditions what A, B, C … are called
 * @param inPairs whether each condition once in a row is a block, which the sheet then names as a pair
 */
export function sheetOfOrder(sequence: readonly string[], conditions: readonly string[], inPairs = false): string {
  return sheetText(
    sequence.map((letter, index) => ({
      file: '',
      condition: conditionNamed(letter, conditions),
      order: index + 1,
      ...(inPairs ? { pair: Math.floor(index / conditions.length) + 1 } : {}),
    })),
  );
}

interface Row {
  readonly file: string;
  readonly condition: string;
  readonly order: number | undefined;
  readonly pair?: number;
}

function sheetText(rows: readonly Row[]): string {
  return csvOf({
    columns: sheetColumns.map((name) => ({ name, unit: '' })),
    rows: rows.map((row) => sheetColumns.map((column) => (isFilled(column) ? (row[column] ?? null) : null))),
  });
}

const isFilled = (column: string): column is keyof Row => ['file', 'condition', 'order', 'pair'].includes(column);

/** `brick-foam-1.csv.gz` is of `brick-foam`. */
function conditionOf(file: string): string {
  const bare = bareName(file);
  return bare.replace(/[\s._-]*\d*$/, '') || bare;
}
