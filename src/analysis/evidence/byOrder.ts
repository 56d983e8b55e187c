import { isSequence, reasonOfOrder } from '../../statistics/sequence.ts';
import { orderClauses } from '../messages/verdict.ts';

/** Why the order of the runs keeps a verdict back, as clauses. @param sequence as of a comparison, or as a record has it */
export function clausesOfOrder(sequence: unknown): readonly string[] {
  const reason = isSequence(sequence) ? reasonOfOrder(sequence) : undefined;
  return reason === undefined ? [] : [orderClauses[reason]];
}
