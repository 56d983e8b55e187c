import { sheetNumber } from '../../readers/sheet.ts';
import type { Warning } from '../../result/result.ts';
import { tell } from '../messages/evidence.ts';
import { bareHeader } from '../../values/sheetColumns.ts';
import { conditionColumns } from './conditions.ts';
import { isOwnColumn } from './ownColumns.ts';
import type { Side } from './sides.ts';

/**
 * Columns of the run sheet in which the runs of a side differ, such as the surface: each told once, with its words, the sides
 * and how to choose, however many are compared. A column of measured figures, or of one whose every cell is another, names no set-up.
 *
 * @param taken columns that the comparison takes care of, in lower case
 */
export function mixedWarnings(sides: readonly Side[], taken: readonly string[]): Warning[] {
  const headers = new Set(sides.flatMap(({ tracks }) => Object.keys(tracks[0].run.sheet?.facts ?? {})));
  return [...headers].flatMap((header) => {
    const column = bareHeader(header);
    if (isOwnColumn(column) || taken.includes(column) || conditionColumns.test(column)) return [];
    const all = cellsOf(sides, header);
    if (new Set(all).size === all.length || isMeasured(all)) return [];
    const mixed = sides.filter((side) => new Set(cellsOf([side], header)).size > 1);
    if (mixed.length === 0) return [];
    const words = [...new Set(cellsOf(mixed, header))];
    return [tell('compare.mixed', { sides: mixed.map(({ name }) => name), column, words })];
  });
}

/** Figures closer than this, as a fraction, are one set-up that was measured (engineering choice). */
const sameFigure = 0.02;

/** Figures of which most are others, or lie close: a temperature, a pace, and no size of three that were tried. */
function isMeasured(cells: readonly string[]): boolean {
  const figures = cells.flatMap((cell) => sheetNumber(cell) ?? []);
  if (figures.length < cells.length) return false;
  const sizes = [...new Set(figures)].sort((x, y) => x - y);
  const isClose = (size: number, k: number): boolean =>
    k > 0 && size - sizes[k - 1] < sameFigure * Math.max(Math.abs(size), Math.abs(sizes[k - 1]));
  return new Set(cells).size > cells.length / 2 || sizes.some(isClose);
}

const cellsOf = (sides: readonly Side[], header: string): string[] =>
  sides.flatMap(({ tracks }) => tracks.map(({ run }) => run.sheet?.facts[header] ?? '')).filter((cell) => cell !== '');
