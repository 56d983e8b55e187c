import { sheetNumber } from '../../readers/sheet.ts';
import type { Warning } from '../../result/result.ts';
import { tell } from '../messages/evidence.ts';
import { bareHeader } from '../recordings/sheetFile.ts';
import { conditionColumns } from './conditions.ts';
import type { Side, Sides } from './sides.ts';

/** Columns that differ from run to run by their nature, or whose differences the method takes out. */
const ownColumns = ['file', 'filename', 'recording', 'order', 'date', 'time', 'pair', 'day', 'session'];
const remarks = ['note', 'excluded', 'why', 'reason'];

/**
 * Sides whose runs differ in a column of the run sheet, such as the surface: told with its words and how to choose one.
 * A column of measured figures, or of one whose every cell is another, names no set-up.
 *
 * @param taken columns that the comparison takes care of, in lower case
 */
export function mixedWarnings({ a, b }: Sides, taken: readonly string[]): Warning[] {
  return [a, b].flatMap((side) =>
    Object.keys(side.tracks[0].run.sheet?.facts ?? {}).flatMap((header) => {
      const column = bareHeader(header);
      if ([...ownColumns, ...remarks, ...taken].includes(column) || conditionColumns.test(column)) return [];
      const [own, all] = [cellsOf([side], header), cellsOf([a, b], header)];
      const words = [...new Set(own)];
      const isSetUp = words.length > 1 && new Set(all).size < all.length && !isMeasured(all);
      return isSetUp ? [tell('compare.mixed', { side: side.name, column, words })] : [];
    }),
  );
}

/** Figures of which most are others: a temperature, and no size of three that were tried. */
const isMeasured = (cells: readonly string[]): boolean =>
  cells.every((cell) => sheetNumber(cell) !== undefined) && new Set(cells).size > cells.length / 2;

const cellsOf = (sides: readonly Side[], header: string): string[] =>
  sides.flatMap(({ tracks }) => tracks.map(({ run }) => run.sheet?.facts[header] ?? '')).filter((cell) => cell !== '');
