import { sheetDate } from '../../readers/sheet.ts';
import { comparedRuns, type ComparisonValue } from '../../values/comparison.ts';
import type { History } from '../../values/ports.ts';
import type { Run } from '../../values/run.ts';
import { datedStart } from '../evidence/runOrder.ts';
import type { ComparisonRequest } from '../evidence/request.ts';
import { factOf } from '../../values/sheetColumns.ts';

/** A comparison with what the project's history tells of the age of its plan, where it has a plan that was looked for there. */
export async function withPlanAge(
  comparison: ComparisonValue,
  { plan: asked }: Pick<ComparisonRequest, 'plan'>,
  history: History,
): Promise<ComparisonValue> {
  const { plan } = comparison;
  const committed = asked?.value.committed;
  if (plan === undefined || committed === undefined) return comparison;
  const runs = comparedRuns(comparison);
  const files = await history.firstOf([...new Set(runs.map(({ file }) => file.path))]);
  if (files === undefined) return comparison;
  const dates = runs.flatMap((run) => recordedAt(run) ?? []);
  const recorded = dates.length === 0 ? undefined : Math.min(...dates);
  return {
    ...comparison,
    plan: { ...plan, age: { plan: committed ?? undefined, files: files ?? undefined, recorded } },
  };
}

/** When a run was made by its own clock or the run sheet, in s since 1970; by its own zone, as neither tells one. */
const recordedAt = (run: Run): number | undefined =>
  datedStart(run) ?? sheetDate(factOf(run.sheet?.facts ?? {}, 'date') ?? '');
