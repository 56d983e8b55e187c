import { success, type Result, type Warning } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import type { ComparisonRow, ComparisonValue } from '../../values/comparison.ts';
import type { Watch } from '../../values/ports.ts';
import { refuse } from '../messages/evidence.ts';
import { refuse as refuseBand } from '../messages/spectra.ts';
import { guard } from '../messages/verdict.ts';
import { sideOfComparison, slowestRun } from './sides.ts';
import { sameBand } from '../planning/planFollowed.ts';
import { comparisonOf } from './comparison.ts';

/** The row that a claim is held against, of the comparison that has it. */
export interface ClaimedRow {
  readonly comparison: ComparisonValue;
  readonly row: ComparisonRow;
  readonly warnings: readonly Warning[];
}

/**
 * The row that a claim is about: of the band it names, else the primary, else the only one. A band that was not
 * compared is compared now from the same spectra, and shows nothing. Refused where several bands are left, and of a band that can't be
 * measured.
 */
export function claimedRow(comparison: ComparisonValue, band: Band | undefined, watch: Watch): Result<ClaimedRow> {
  const { rows } = comparison;
  const row =
    band !== undefined
      ? rows.find((one) => sameBand(one.band, band))
      : rows.length === 1
        ? rows[0]
        : rows.find(({ primary }) => primary === true);
  if (row !== undefined) return success({ comparison, row, warnings: [] });
  if (band !== undefined) return rowComparedNow(band, comparison, watch);
  return refuse('claim.band', { problem: 'not said', compared: rows.map((one) => one.band) }, 'comparison');
}

function rowComparedNow(band: Band, comparison: ComparisonValue, watch: Watch): Result<ClaimedRow> {
  const { rows, metricCode = 'rms', methodCode, confidence, margin, plan, includesExcluded, guards } = comparison;
  const [a, b] = [comparison.a, comparison.b].map(sideOfComparison);
  const compared = rows.map((row) => row.band);
  if (a === undefined || b === undefined)
    return refuse('claim.band', { problem: 'not compared', compared, band }, 'over');
  const sides = { a, b };
  const slowest = slowestRun(sides);
  const half = slowest.rate / 2;
  if (band.to > half)
    return refuseBand('band.outside', { from: band.from, to: band.to, run: slowest.label, half }, 'over');
  const terms = {
    metric: metricCode,
    bands: [band],
    primary: undefined,
    ofSignal: false,
    confidence,
    margin,
    method: methodCode === 'paired' || methodCode === 'trend' ? methodCode : undefined,
    floor: undefined,
    besides: comparison.family ?? rows.length,
  } as const;
  const found = comparisonOf(sides, terms, watch);
  if (!found.ok) return found;
  const value: ComparisonValue = {
    ...found.value,
    ...(plan === undefined ? {} : { plan }),
    ...(includesExcluded === true ? { includesExcluded } : {}),
    ...(guards === undefined ? {} : { guards }),
  };
  const [row] = value.rows;
  const unplanned = guard('guard.compared', { band });
  return success({
    comparison: value,
    row: { ...row, guards: [...(row.guards ?? []), unplanned] },
    warnings: found.warnings,
  });
}
