import { sheetNumber } from '../../readers/sheet.ts';
import type { Warning } from '../../result/result.ts';
import { fewestRuns } from '../../statistics/methods.ts';
import { tell, type Extent } from '../messages/evidence.ts';
import { bareHeader, factOf, unitOfHeader } from '../../values/sheetColumns.ts';
import { figureOf, figuresOfAll, isTemperature } from './conditions.ts';
import { isCircumstance, isOwnColumn } from './ownColumns.ts';
import type { Side, Sides } from './sides.ts';

/** Means closer than this, as a fraction, or of temperatures in K, are one (engineering choices). */
const sameFigure = 0.02;
const sameTemperature = 1;

/**
 * What the run sheet says that no run of one side shares with one of the other: figures (a setting, a pace, a temperature), and
 * words of the circumstances (a surface, a rider). What they do can't be told from the change. With few runs figures lie apart
 * by chance, so both sides need those that a verdict does.
 *
 * @param taken columns that are told of elsewhere, or that the comparison takes care of, in lower case
 */
export function apartWarnings({ a, b }: Sides, taken: readonly string[]): Warning[] {
  if (a.tracks.length < fewestRuns || b.tracks.length < fewestRuns) return [];
  const headers = Object.keys(a.tracks[0].run.sheet?.facts ?? {});
  const found = headers.flatMap((header) => {
    const column = bareHeader(header);
    if (isOwnColumn(column) || taken.includes(column)) return [];
    const words = wordsApart([a, b], column);
    if (words !== undefined) return [tell('compare.apart', { a: a.name, b: b.name, column, ...words })];
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
  // Of one condition, what tells the sides apart is what is compared.
  return found.length === 1 && isOneCondition([a, b]) ? [] : found;
}

function isOneCondition(sides: readonly Side[]): boolean {
  const conditions = sides.flatMap(({ tracks }) => tracks.map(({ run }) => run.sheet?.condition));
  return conditions[0] !== undefined && new Set(conditions).size === 1;
}

/**
 * The words of two sides under a column of circumstances, of which they have none in common though runs share them; undefined
 * where a run has none, and where they only name what is compared: as the conditions do, or the sides.
 */
function wordsApart(
  sides: readonly [Side, Side],
  column: string,
): { readonly wordsA: readonly string[]; readonly wordsB: readonly string[] } | undefined {
  if (!isCircumstance(column)) return undefined;
  const cells = sides.map((side) => cellsOf(side, column));
  const count = sides[0].tracks.length + sides[1].tracks.length;
  const [wordsA, wordsB] = cells.map((words) => [...new Set(words)]);
  if (cells.flat().length < count || wordsA.length + wordsB.length === count) return undefined;
  if ([...wordsA, ...wordsB].every((word) => sheetNumber(word) !== undefined)) return undefined;
  const isNamed = sides.every((side, k) => cells[k].every((word) => namesOf(side).includes(lower(word))));
  return isNamed || wordsA.some((word) => wordsB.map(lower).includes(lower(word))) ? undefined : { wordsA, wordsB };
}

const lower = (text: string): string => text.toLowerCase();

const cellsOf = ({ tracks }: Side, column: string): string[] =>
  tracks.map(({ run }) => factOf(run.sheet?.facts ?? {}, column) ?? '').filter((cell) => cell !== '');

/** What a side is called, by its name and by its runs' condition. */
const namesOf = (side: Side): string[] =>
  [side.name, ...side.tracks.flatMap(({ run }) => run.sheet?.condition ?? [])].map(lower);

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
