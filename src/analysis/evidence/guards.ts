import type { Message } from '../../result/result.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { Band } from '../../values/band.ts';
import type { PlanFollowed } from '../../values/plan.ts';
import { guard } from '../messages/verdict.ts';
import { sameBand } from '../planning/planFollowed.ts';

/** What may forbid a verdict: of the whole comparison, of the row alone, and of the plan. */
export interface GuardSources {
  readonly ofAll: readonly Message[];
  readonly own: readonly Message[];
  readonly plan: Pick<PlanFollowed, 'bands' | 'unplanned'> | undefined;
}

/**
 * Reasons outside the figures of a band that forbid a verdict by it, as clauses. The row, its sentence and every claim by it
 * rest on these.
 */
export function guardsIn(band: Band, { ofAll, own, plan }: GuardSources): Message[] {
  const planned = plan?.bands ?? [];
  const isUnplanned = planned.length > 0 && !planned.some((one) => sameBand(one, band));
  return [...ofAll, ...own, ...(plan?.unplanned ?? []), ...(isUnplanned ? [guard('guard.band', { band })] : [])];
}

/** The same of a row of a comparison. */
export const guardsOf = (
  { guards: ofAll = [], plan }: ComparisonValue,
  { band, guards: own = [] }: ComparisonRow,
): Message[] => guardsIn(band, { ofAll, own, plan });
