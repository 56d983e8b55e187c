import type { Checked, CheckedArgument } from '../checked.ts';

export type CallOf = Checked & { readonly type: 'call' };

/** Every call inside an expression, outermost first. */
export function callsIn(node: CheckedArgument): readonly CallOf[] {
  switch (node.type) {
    case 'call':
      return [node, ...[...Object.values(node.operands), ...Object.values(node.options)].flat().flatMap(callsIn)];
    case 'group':
      return node.parts.flatMap(callsIn);
    case 'pick':
    case 'field':
    case 'negative':
    case 'convert':
    case 'uncertain':
    case 'coverage':
      return callsIn(node.of);
    case 'binary':
      return [...callsIn(node.left), ...callsIn(node.right)];
    case 'function':
      return node.arguments.flatMap(callsIn);
    case 'name':
    case 'quantity':
    case 'range':
    case 'text':
    case 'word':
    case 'unit':
      return [];
  }
}
