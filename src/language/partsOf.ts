import type { CheckedArgument } from './checked.ts';

/** What stands right within a part of an expression, in the order of the text. */
export function partsOf(node: CheckedArgument): readonly CheckedArgument[] {
  switch (node.type) {
    case 'call':
      return [...Object.values(node.operands), ...Object.values(node.options)].flat();
    case 'function':
      return node.arguments;
    case 'group':
      return node.parts;
    case 'binary':
      return [node.left, node.right];
    case 'pick':
    case 'field':
    case 'negative':
    case 'uncertain':
    case 'coverage':
    case 'convert':
      return [node.of];
    case 'name':
    case 'quantity':
    case 'range':
    case 'text':
    case 'word':
    case 'unit':
      return [];
  }
}
