import { planKind } from '../../values/plan.ts';
import { planMark } from '../words/plan.ts';
import { figuresTable } from './figures.ts';
import type { Presenter } from './kind.ts';

/** What was settled beforehand, and the mark by which a later change of it is noticed. */
export const presentPlan: Presenter<'plan'> = (value) => [
  figuresTable('Plan', planKind.rows.columns, value.entries, value),
  { type: 'text', style: 'aside', text: planMark(value) },
];
