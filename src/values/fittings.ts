import { capitalised, listed } from '../result/words.ts';
import { sidesIn, sidesOfRow, type ComparisonValue } from './comparison.ts';
import type { ComparisonRow } from './comparisonParts.ts';
import { factOf } from './sheetColumns.ts';

/** What the run sheet's column `refit` tells of how often the compared parts were fitted. */
export interface Fittings {
  /** How many sides are compared. */
  readonly sides: number;
  /** Sides of which some run has no refit in the sheet. */
  readonly untold: readonly string[];
  /** Sides that were fitted once for several runs (in one stratum, where there are strata). */
  readonly once: readonly string[];
}

/**
 * Of all sides, or of those that a row holds against one another.
 *
 * @returns undefined where nothing is inferred from the runs, so that no interval reaches anywhere
 */
export function fittingsOf(value: ComparisonValue, row?: ComparisonRow): Fittings | undefined {
  const rows = row === undefined ? value.rows : [row];
  if (rows.every(({ lowPercent }) => lowPercent === undefined)) return undefined;
  const sides = sidesFitted(value, row);
  const isUntold = ({ refits }: SideFitted): boolean => refits.includes('');
  return {
    sides: sides.length,
    untold: sides.filter(isUntold).map(({ name }) => name),
    once: sides.filter((side) => !isUntold(side) && isOnce(side)).map(({ name }) => name),
  };
}

interface SideFitted {
  readonly name: string;
  /** Of each run the sheet's refit, empty where it tells none, and its stratum, empty where there is but one. */
  readonly refits: readonly string[];
  readonly strata: readonly string[];
}

function sidesFitted(value: ComparisonValue, row: ComparisonRow | undefined): SideFitted[] {
  const [sides, isOfOne] =
    row === undefined ? [sidesIn(value), false] : [Object.values(sidesOfRow(value, row)), row.stratum !== undefined];
  return sides.map(({ name, runs, strata }) => ({
    name,
    refits: runs.map((run) => factOf(run.sheet?.facts ?? {}, 'refit') ?? ''),
    strata: runs.map((_, index) => (isOfOne ? '' : (strata?.[index] ?? ''))),
  }));
}

function isOnce({ refits, strata }: SideFitted): boolean {
  return distinct(strata).some((stratum) => {
    const cell = refits.filter((_, index) => strata[index] === stratum);
    return cell.length > 1 && distinct(cell).length === 1;
  });
}

const distinct = (texts: readonly string[]): string[] => [...new Set(texts)];

/** How far the intervals reach: to other fittings of the parts only where refits were made. Empty where they do. */
export function reachText({ sides, untold, once }: Fittings): string {
  return [
    ...(untold.length === 0 ? [] : [untoldText(untold.length === sides ? undefined : untold)]),
    ...(once.length === 0 ? [] : [onceText(once)]),
  ].join(' ');
}

/** @param names undefined of all sides */
function untoldText(names: readonly string[] | undefined): string {
  if (names === undefined)
    return 'Whether the parts were fitted anew between runs is not recorded, so the intervals speak of the parts as they were fitted here.';
  const [were, them] = names.length === 1 ? ['was', 'it as it was'] : ['were', 'them as they were'];
  return `Whether ${listed(names)} ${were} fitted anew between runs is not recorded, so the intervals speak of ${them} fitted here.`;
}

function onceText(names: readonly string[]): string {
  const [were, those] = names.length === 1 ? ['was', 'that fitting'] : ['were each', 'those fittings'];
  return `${capitalised(listed(names))} ${were} fitted once, so the intervals speak of ${those} alone.`;
}
