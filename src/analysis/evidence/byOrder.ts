import type { Sequence } from '../../statistics/sequence.ts';
import { orderClauses, type OrderReason } from '../messages/verdict.ts';

/** Orders of the runs that keep a verdict back, though there is an interval. */
const reasons: Readonly<Record<Sequence, OrderReason | undefined>> = {
  unknown: undefined,
  interleaved: undefined,
  leaning: undefined,
  apart: 'order-apart',
  'other-days': 'other-days',
};

/** Why the order of the runs keeps a verdict back; undefined where it does not. */
export const reasonOfOrder = (sequence: Sequence | undefined): OrderReason | undefined =>
  sequence === undefined ? undefined : reasons[sequence];

/** The same as clauses. @param sequence as of a comparison, or as a record has it */
export function clausesOfOrder(sequence: unknown): readonly string[] {
  const known = Object.entries(reasons).find(([name]) => name === sequence)?.[1];
  return known === undefined ? [] : [orderClauses[known]];
}
