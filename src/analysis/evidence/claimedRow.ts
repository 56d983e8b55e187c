import { success, type Refused, type Result, type Warning } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import { sidesIn, type ComparisonValue } from '../../values/comparison.ts';
import type { ComparisonRow, ComparisonSide } from '../../values/comparisonParts.ts';
import type { Watch } from '../../values/ports.ts';
import { refuse } from '../messages/evidence.ts';
import { refuse as refuseBand } from '../messages/spectra.ts';
import { sideOfComparison, sidesOf, slowestRun, type Side, type Sides } from './sides.ts';
import { sameBand } from '../planning/planFollowed.ts';
import { comparisonOf } from './comparison.ts';
import { lineOf } from './lineMetric.ts';

/** The row that a claim is held against, of the comparison that has it. */
export interface ClaimedRow {
  readonly comparison: ComparisonValue;
  readonly row: ComparisonRow;
  readonly warnings: readonly Warning[];
}

/** Which row a claim is about; undefined is not said. */
export interface Claimed {
  readonly band: Band | undefined;
  readonly condition: string | undefined;
  readonly axis: string | undefined;
  readonly stratum: string | undefined;
}

/**
 * The row that a claim is about: of the condition, the axis and the stratum that it names (of all strata together, unless
 * it names one), and of the band it names, else the primary, else the only one. A band that was not compared is compared
 * now from the same spectra, and shows nothing. Refused where several are left, and of a band that can't be measured.
 */
export function claimedRow(comparison: ComparisonValue, claimed: Claimed, watch: Watch): Result<ClaimedRow> {
  const { band } = claimed;
  const rows = rowsNamed(comparison.rows, claimed);
  if (!rows.ok) return rows;
  const row = speakingRow(rows.value, band);
  if (row !== undefined) return success({ comparison, row, warnings: [] });
  if (band !== undefined) return rowComparedNow(band, comparison, claimed, watch);
  return refuse('claim.band', { problem: 'not said', compared: bandsOf(rows.value) }, 'comparison');
}

/** The row of a comparison that a claim is about, where one was compared. */
export function comparedRow({ rows }: ComparisonValue, claimed: Claimed): ComparisonRow | undefined {
  const named = rowsNamed(rows, claimed);
  return named.ok ? speakingRow(named.value, claimed.band) : undefined;
}

function speakingRow(rows: readonly ComparisonRow[], band: Band | undefined): ComparisonRow | undefined {
  if (band !== undefined) return rows.find((one) => sameBand(one.band, band));
  return rows.length === 1 ? rows[0] : rows.find(({ primary }) => primary === true);
}

const bandsOf = (rows: readonly ComparisonRow[]): Band[] =>
  rows.map(({ band }) => band).filter((band, index, all) => all.findIndex((one) => sameBand(one, band)) === index);

/** The rows of the condition, axis and stratum that are named, or of the only one; refused where there are several. */
function rowsNamed(
  rows: readonly ComparisonRow[],
  { condition, axis, stratum }: Claimed,
): Result<readonly ComparisonRow[]> {
  const ways = [
    { what: 'stratum', named: stratum, of: (row: ComparisonRow) => row.stratum, option: 'stratum' },
    { what: 'axis', named: axis, of: ({ channel }: ComparisonRow) => channel, option: 'axis' },
    { what: 'condition', named: condition, of: (row: ComparisonRow) => row.condition, option: 'condition' },
  ] as const;
  let left = rows;
  for (const { what, named, of, option } of ways) {
    const known = [...new Set(left.flatMap((row) => of(row) ?? []))];
    if (named !== undefined) {
      if (!known.includes(named)) return refuse('claim.which', { what, named, known }, option);
      left = left.filter((row) => of(row) === named);
    } else if (what === 'stratum') left = left.filter((row) => row.stratum === undefined);
    else if (known.length > 1) return refuse('claim.which', { what, named, known }, 'comparison');
  }
  return success(left);
}

function rowComparedNow(band: Band, comparison: ComparisonValue, claimed: Claimed, watch: Watch): Result<ClaimedRow> {
  const { metricCode = 'rms', methodCode, confidence, margin, plan, includesExcluded } = comparison;
  const axes = lineOf(metricCode) === undefined ? sidesAgain(comparison) : undefined;
  if (axes === undefined)
    return refuse('claim.band', { problem: 'not compared', compared: bandsOf(comparison.rows), band }, 'over');
  if (!axes.ok) return axes;
  const whyOutside = outside(band, axes.value[0]);
  if (whyOutside !== undefined) return whyOutside;
  const adjust = comparison.adjusted ?? [];
  const terms = {
    metric: metricCode,
    bands: [band],
    primary: undefined,
    ofSignal: false,
    confidence,
    margin,
    method: methodCode === 'paired' || methodCode === 'trend' ? methodCode : undefined,
    floor: undefined,
    within: comparison.strata?.columns ?? [],
    adjust,
    plannedAdjust: adjust.map(({ column }) => column),
    isAllPairs: comparison.isAllPairs === true,
    isPooled: comparison.isPooled === true,
    besides: comparison.family ?? comparison.rows.length,
    ...(plan === undefined ? {} : { planned: plan }),
  } as const;
  const found = comparisonOf(axes.value, terms, watch);
  if (!found.ok) return found;
  const value: ComparisonValue = {
    ...found.value,
    ...(plan === undefined ? {} : { plan }),
    ...(includesExcluded === true ? { includesExcluded } : {}),
  };
  const rows = rowsNamed(value.rows, claimed);
  if (!rows.ok) return rows;
  return success({ comparison: value, row: rows.value[0], warnings: found.warnings });
}

function outside(band: Band, sides: Sides): Refused | undefined {
  const slowest = slowestRun(sides);
  const half = slowest.rate / 2;
  return band.to > half
    ? refuseBand('band.outside', { from: band.from, to: band.to, run: slowest.label, half }, 'over')
    : undefined;
}

/** The sides that a comparison was made of, one entry an axis; undefined where their spectra were not kept. */
function sidesAgain(comparison: ComparisonValue): Result<readonly Sides[]> | undefined {
  const axes: Sides[] = [];
  for (const axis of new Set(comparison.rows.map(({ channel }) => channel))) {
    const again = (side: ComparisonSide): Side | undefined => sideOfComparison(side, axis);
    const list = sidesIn(comparison).flatMap((side) => again(side) ?? []);
    if (list.length < sidesIn(comparison).length) return undefined;
    const sides = sidesOf(list, comparison.reference && again(comparison.reference));
    if (!sides.ok) return sides;
    axes.push(sides.value);
  }
  return success(axes);
}
