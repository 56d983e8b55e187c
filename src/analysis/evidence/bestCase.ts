import type { Claim } from '../../statistics/claimForm.ts';
import { success, type Result } from '../../result/result.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import type { VerdictValue } from '../../values/verdict.ts';
import { sameBand } from '../planning/planFollowed.ts';
import { comparedRow, type Claimed } from './claimedRow.ts';
import { verdictOf } from './verdict.ts';

/** A claim of "up to". */
type UpTo = Extract<Claim, { kind: 'up to' }>;

/**
 * What becomes of a claim of "up to", which can mean no more than the best case: of all changes that it may be about, in every
 * stratum too, it is supported where the whole interval of one lies where the figure is reached, contradicted where no
 * interval comes near it, else not shown. The row told is the one that decides: the largest change as claimed, of those
 * supported if any is. Undefined where nothing that was compared is what it names: then `claimedRow` says so.
 */
export function bestCase(
  claim: UpTo,
  comparison: ComparisonValue,
  claimed: Claimed,
  source: string | undefined,
): Result<VerdictValue> | undefined {
  const rows = comparison.rows.filter((row) => isAbout(row, claimed));
  if (rows.length === 0) return undefined;
  const sign = claim.direction === 'reduction' ? -1 : 1;
  const nearest = [...rows].sort((one, other) => sign * (other.changePercent - one.changePercent));
  const speaks = comparedRow(comparison, claimed);
  const expected = speaks && verdictOf({ ...claim, kind: 'at least' }, comparison, speaks, source).verdict;
  const judged = nearest.map((row) => verdictOf(claim, comparison, row, source, { changes: rows.length, expected }));
  const supported = judged.find(({ verdict }) => verdict === 'supported');
  // Only where every one is contradicted is the best case, whichever it is.
  const open = judged.find(({ verdict }) => verdict === 'not shown');
  return success(supported ?? open ?? judged[0]);
}

const isAbout = (row: ComparisonRow, { band, condition, axis, stratum }: Claimed): boolean =>
  (band === undefined || sameBand(row.band, band)) &&
  (condition === undefined || row.condition === condition) &&
  (axis === undefined || row.channel === axis) &&
  (stratum === undefined || row.stratum === stratum);
