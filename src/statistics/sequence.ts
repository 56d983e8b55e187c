import type { Change, KnownRun } from './knownRun.ts';

/** How the runs of both sides follow one another. */
export type Sequence =
  /** The order is not known. */
  | 'unknown'
  | 'interleaved'
  /** One condition came earlier on the whole, so that its drift costs precision (variance inflation above 1.5). */
  | 'leaning'
  /** All runs of one condition came before the other's: drift and change cannot be told apart. */
  | 'apart'
  /** No day has runs of both conditions, and runs share days: what differs between days and the change cannot be told apart. */
  | 'other-days';

/** Why the order of the runs keeps a verdict back, though there is an interval. */
export type OrderReason = 'order-apart' | 'other-days';

const reasons: Readonly<Record<Sequence, OrderReason | undefined>> = {
  unknown: undefined,
  interleaved: undefined,
  leaning: undefined,
  apart: 'order-apart',
  'other-days': 'other-days',
};

/** Whether a word, such as one from a record, names an order. */
export const isSequence = (word: unknown): word is Sequence => typeof word === 'string' && Object.hasOwn(reasons, word);

/** Why an order keeps a verdict back; undefined where it does not. */
export const reasonOfOrder = (sequence: Sequence | undefined): OrderReason | undefined =>
  sequence === undefined ? undefined : reasons[sequence];

/** Whether runs that follow one another so carry no verdict. */
export const isWithholding = (sequence: Sequence | undefined): boolean => reasonOfOrder(sequence) !== undefined;

/** Variance inflation above which an order leans. */
const leaning = 1.5;

/**
 * How the runs of two conditions follow one another, in each of their strata: withholding where they are in one of them.
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
  if (cells.some(onOtherDays)) return 'other-days';
  if (!isKnown) return 'unknown';
  const references = runs.filter(({ isReference }) => isReference === true);
  if (cells.some((cell) => inTurn(cell) && !isFramed(cell, references))) return 'apart';
  return inflation === undefined || inflation > leaning ? 'leaning' : 'interleaved';
}

interface Cell {
  readonly a: readonly KnownRun[];
  readonly b: readonly KnownRun[];
}

/** All of one on other days than all of the other, with several runs on some day: runs that each have a day of their own scatter by it. */
function onOtherDays({ a, b }: Cell): boolean {
  const [daysA, daysB] = [a, b].map((runs) => runs.flatMap(({ day }) => day ?? []));
  if (daysA.length < a.length || daysB.length < b.length) return false;
  return new Set([...daysA, ...daysB]).size < a.length + b.length && !daysA.some((day) => daysB.includes(day));
}

const placesIn = (runs: readonly KnownRun[]): number[] => runs.map(({ place = 0 }) => place);

const isBefore = (first: readonly number[], second: readonly number[]): boolean =>
  Math.max(...first) < Math.min(...second);

/** All of one before all of the other. */
function inTurn({ a, b }: Cell): boolean {
  const [placesA, placesB] = [a, b].map(placesIn);
  return isBefore(placesA, placesB) || isBefore(placesB, placesA);
}

/** Whether reference runs stand before, between and after two sides that came in turn, and so tell their drift. */
function isFramed({ a, b }: Cell, references: readonly KnownRun[]): boolean {
  const marks = placesIn(references);
  const [first, second] = isBefore(placesIn(a), placesIn(b)) ? [a, b].map(placesIn) : [b, a].map(placesIn);
  const between = marks.some((mark) => mark > Math.max(...first) && mark < Math.min(...second));
  return between && Math.min(...marks) < Math.min(...first) && Math.max(...marks) > Math.max(...second);
}
