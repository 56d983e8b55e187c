import { sheetNumber } from '../../readers/sheet.ts';
import type { Warning } from '../../result/result.ts';
import { fewestRuns } from '../../statistics/methods.ts';
import { tell, type Extent } from '../messages/evidence.ts';
import { bareHeader, factOf, unitOfHeader } from '../../values/sheetColumns.ts';
import { figureOf, figuresOfAll, isTemperature } from './conditions.ts';
import { isOwnColumn } from './ownColumns.ts';
import type { Side, Sides } from './sides.ts';

/** Means closer than this, as a fraction, or of temperatures in K, are one (engineering choices). */
const sameFigure = 0.02;
const sameTemperature = 1;

/**
 * Figures of the run sheet that no run of one side shares with one of the other: a setting, a pace, a temperature. What they do
 * can't be told from the change. With few runs figures lie apart by chance, so both sides need those that a verdict does.
 *
 * @param taken columns that are told of elsewhere, or that the comparison takes care of, in lower case
 */
export function apartWarnings({ a, b }: Sides, taken: readonly string[]): Warning[] {
  if (a.tracks.length < fewestRuns || b.tracks.length < fewestRuns) return [];
  const headers = Object.keys(a.tracks[0].run.sheet?.facts ?? {});
  return headers.flatMap((header) => {
    const column = bareHeader(header);
    if (isOwnColumn(column) || taken.includes(column)) return [];
    const [ofA, ofB] = [a, b].map((side) => figuresOf(side, column));
    if (ofA === undefined || ofB === undefined || !areApart(ofA, ofB) || !isFar([a, b], column)) return [];
    const isAbove0 = [...ofA, ...ofB].every((value) => value > 0);
    return [
      tell('compare.apart', {
        ...{ a: a.name, b: b.name, column, unit: unitOfHeader(header) },
        ...{ rangeA: extentOf(ofA), rangeB: extentOf(ofB) },
        hasPower: isAbove0 && !isTemperature(column) && /^[a-z_]\w*$/.test(column),
      }),
    ];
  });
}

/** In the sheet's unit; undefined unless every run has one. */
const figuresOf = ({ tracks }: Side, column: string): number[] | undefined =>
  figuresOfAll(tracks, (run) => sheetNumber(factOf(run.sheet?.facts ?? {}, column) ?? ''));

/** Without a list of arguments, of which there may be too many. */
const extentOf = (figures: readonly number[]): Extent =>
  figures.reduce(({ from, to }, value) => ({ from: Math.min(from, value), to: Math.max(to, value) }), {
    from: Infinity,
    to: -Infinity,
  });

function areApart(a: readonly number[], b: readonly number[]): boolean {
  const [one, other] = [extentOf(a), extentOf(b)];
  return one.to < other.from || other.to < one.from;
}

function isFar(sides: readonly Side[], column: string): boolean {
  const [a, b] = sides.map(({ tracks }) => {
    const figures = tracks.map(({ run }) => figureOf(run, column) ?? NaN);
    return figures.reduce((sum, value) => sum + value, 0) / figures.length;
  });
  const apart = Math.abs(a - b);
  return isTemperature(column) ? apart >= sameTemperature : apart > sameFigure * Math.max(Math.abs(a), Math.abs(b));
}
