import { planKind, type PlanValue } from '../../values/plan.ts';
import { figuresTable } from './figures.ts';
import type { Presenter } from './kind.ts';

/** What was settled beforehand, and the mark by which a later change of it is noticed. */
export const presentPlan: Presenter<'plan'> = (value) => [
  figuresTable('Plan', planKind.rows.columns, value.entries, value),
  { type: 'text', style: 'aside', text: `SHA-256 of the plan: ${value.hash}${committedText(value)}` },
];

function committedText({ committed }: PlanValue): string {
  if (committed === undefined) return '';
  if (committed === null) return '\nAs it is written here it is not committed in git.';
  const at = new Date(1000 * committed.at).toISOString().slice(0, 10);
  return `\nAs it is written here it was committed in git on ${at} (${committed.id.slice(0, 12)}).`;
}
