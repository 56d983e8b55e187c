import type { Change, KnownRun } from './knownRun.ts';

/** How the runs of both sides follow one another. */
export type Sequence =
  /** The order is not known. */
  | 'unknown'
  | 'interleaved'
  /** One condition came earlier on the whole, so that its drift costs precision (variance inflation above 1.5). */
  | 'leaning'
  /** All runs of one condition came before the other's: drift and change cannot be told apart. */
  | 'apart';

/** Variance inflation above which an order leans. */
const leaning = 1.5;

/** Reference runs, at least so many, that stand before, between and after two sides tell their drift. */
const fewestReferences = 3;

/**
 * How the runs of two conditions follow one another, in each of their strata: apart where they are in one of them.
 *
 * @param isKnown whether every run has a place of its own
 * @param inflation of the variance when a straight drift is taken out
 */
export function sequenceOf(
  runs: readonly KnownRun[],
  { from, to }: Change,
  isKnown: boolean,
  inflation: number | undefined,
): Sequence {
  const sides = runs.filter(({ condition, isReference }) => isReference !== true && [from, to].includes(condition));
  const strata = [...new Set(sides.map(({ stratum }) => stratum))];
  const cells = strata.map((stratum) => {
    const own = sides.filter((run) => run.stratum === stratum);
    return { a: own.filter(({ condition }) => condition === from), b: own.filter(({ condition }) => condition === to) };
  });
  if (cells.some(onOtherDays)) return 'apart';
  if (!isKnown) return 'unknown';
  const references = runs.filter(({ isReference }) => isReference === true);
  if (cells.some((cell) => inTurn(cell) && !isFramed(cell, references))) return 'apart';
  return inflation === undefined || inflation > leaning ? 'leaning' : 'interleaved';
}

interface Cell {
  readonly a: readonly KnownRun[];
  readonly b: readonly KnownRun[];
}

/** All of one on one day and all of the other on another. */
function onOtherDays({ a, b }: Cell): boolean {
  const [daysA, daysB] = [a, b].map((runs) => runs.flatMap(({ day }) => day ?? []));
  if (daysA.length < a.length || daysB.length < b.length) return false;
  return new Set([...daysA, ...daysB]).size === 2 && !daysA.some((day) => daysB.includes(day));
}

const placesIn = (runs: readonly KnownRun[]): number[] => runs.map(({ place = 0 }) => place);

const isBefore = (first: readonly number[], second: readonly number[]): boolean =>
  Math.max(...first) < Math.min(...second);

/** All of one before all of the other. */
function inTurn({ a, b }: Cell): boolean {
  const [placesA, placesB] = [a, b].map(placesIn);
  return isBefore(placesA, placesB) || isBefore(placesB, placesA);
}

/** Whether reference runs stand before, between and after two sides that came in turn. */
function isFramed({ a, b }: Cell, references: readonly KnownRun[]): boolean {
  const marks = placesIn(references);
  if (marks.length < fewestReferences) return false;
  const [first, second] = isBefore(placesIn(a), placesIn(b)) ? [a, b].map(placesIn) : [b, a].map(placesIn);
  const between = marks.some((mark) => mark > Math.max(...first) && mark < Math.min(...second));
  return between && Math.min(...marks) < Math.min(...first) && Math.max(...marks) > Math.max(...second);
}
