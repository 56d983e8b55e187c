import { columns, type Presenter } from './kind.ts';

/** What was settled beforehand, and the mark by which a later change of it is noticed. */
export const presentPlan: Presenter<'plan'> = ({ entries, hash }) => [
  {
    type: 'table',
    caption: 'Plan',
    columns: columns(['Item', '', 'left'], ['Settled as', '', 'left']),
    rows: entries.map(({ word, text }) => [word, text]),
  },
  { type: 'text', style: 'aside', text: `SHA-256 of the plan: ${hash}` },
];
