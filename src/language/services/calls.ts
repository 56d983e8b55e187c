import { partsOf } from '../partsOf.ts';
import type { Checked, CheckedArgument } from '../checked.ts';

export type CallOf = Checked & { readonly type: 'call' };

/** Every call inside an expression, outermost first. */
export function callsIn(node: CheckedArgument): readonly CallOf[] {
  const within = partsOf(node).flatMap(callsIn);
  return node.type === 'call' ? [node, ...within] : within;
}
