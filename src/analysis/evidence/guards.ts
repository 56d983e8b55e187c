import type { Message } from '../../result/result.ts';
import type { ComparisonRow, ComparisonValue } from '../../values/comparison.ts';
import { guard } from '../messages/verdict.ts';
import { sameBand } from '../planning/planFollowed.ts';

/** Reasons outside a row's own figures that forbid a verdict by it, as clauses. */
export function guardsOf(comparison: ComparisonValue, row: ComparisonRow): Message[] {
  const { plan } = comparison;
  const planned = plan?.bands ?? [];
  const isUnplanned = planned.length > 0 && !planned.some((band) => sameBand(band, row.band));
  return [
    ...(comparison.guards ?? []),
    ...(row.guards ?? []),
    ...(plan?.unplanned ?? []),
    ...(isUnplanned ? [guard('guard.band', { band: row.band })] : []),
  ];
}
