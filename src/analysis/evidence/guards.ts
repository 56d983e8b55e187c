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

/** Why nothing is inferred of a row: too few runs, or none that scatter. */
const nothingInferred = ['one-run-each', 'few-runs', 'few-in-cell', 'few-for-slope', 'no-scatter'];

/** Codes of a comparison's warnings that say why a verdict by one of its rows is kept back. */
export const withholdingCodes = (value: ComparisonValue): readonly string[] =>
  value.rows.flatMap((row) => [
    ...((row.sequence ?? value.sequence) === 'apart' ? ['compare.order-apart'] : []),
    ...(row.lowPercent === undefined ? nothingInferred.map((code) => `compare.${code}`) : []),
    ...guardsOf(value, row).map(({ code, facts }) =>
      'code' in facts ? `fault.${String(facts.code)}` : code.replace(/^guard\./, 'compare.'),
    ),
  ]);

/** The same of a row of a comparison. */
export const guardsOf = (
  { guards: ofAll = [], plan }: ComparisonValue,
  { band, guards: own = [] }: ComparisonRow,
): Message[] => guardsIn(band, { ofAll, own, plan });
