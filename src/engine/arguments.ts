import type { Checked, CheckedArgument, CheckedArguments } from '../language/checked.ts';
import type { Argument, Arguments } from '../verbs/verb.ts';
import type { Value } from '../values/value.ts';
import type { Call, Evaluated } from './evaluation.ts';

type Evaluate = (node: Checked) => Promise<Evaluated<Value>>;

/**
 * The evaluated arguments of a call: operands first, then options, each in its order.
 * @param without an operand that is left out
 */
export async function argumentsOf(
  { operands, options }: Call,
  value: Evaluate,
  without?: string,
): Promise<Evaluated<Arguments>> {
  const asked = Object.fromEntries(Object.entries(operands).filter(([name]) => name !== without));
  const given = await evaluateAll(asked, value);
  if (!given.ok) return given;
  const settled = await evaluateAll(options, value);
  return settled.ok ? { ok: true, value: { operands: given.value, options: settled.value } } : settled;
}

async function evaluateAll(given: CheckedArguments, value: Evaluate): Promise<Evaluated<Record<string, Argument[]>>> {
  const found: Record<string, Argument[]> = {};
  for (const [name, nodes] of Object.entries(given)) {
    found[name] = [];
    for (const node of nodes) {
      const argument = await evaluated(node, value);
      if (!argument.ok) return argument;
      found[name].push(argument.value);
    }
  }
  return { ok: true, value: found };
}

async function evaluated(node: CheckedArgument, value: Evaluate): Promise<Evaluated<Argument>> {
  const literal = literalArgument(node);
  if (literal !== undefined) return { ok: true, value: literal };
  if (node.type === 'group') {
    const parts: Argument[] = [];
    for (const part of node.parts) {
      const found = await evaluated(part, value);
      if (!found.ok) return found;
      parts.push(found.value);
    }
    return { ok: true, value: { type: 'group', parts } };
  }
  const found = await value(node);
  if (!found.ok) return found;
  if (found.value.kind === 'quantity') {
    const { quantity, parts } = found.value;
    const name = nameIn(node);
    const more = { ...(parts === undefined ? {} : { parts }), ...(name === undefined ? {} : { name }) };
    return { ok: true, value: { type: 'quantity', quantity, ...more } };
  }
  if (found.value.kind === 'text') return { ok: true, value: { type: 'text', text: found.value.text } };
  return { ok: true, value: { type: 'value', value: found.value, name: nameIn(node) } };
}

/** An argument that needs no evaluation, or undefined. */
export function literalArgument(node: CheckedArgument): Argument | undefined {
  switch (node.type) {
    case 'quantity':
      return { type: 'quantity', quantity: node.quantity };
    case 'range':
      return { type: 'range', from: node.from, to: node.to };
    case 'text':
      return { type: 'text', text: node.text };
    case 'word':
      return node.text === undefined
        ? { type: 'word', word: node.word }
        : { type: 'word', word: node.word, text: node.text };
    case 'unit':
      return { type: 'unit', unit: node.unit };
    case 'group':
    case 'call':
    case 'name':
    case 'pick':
    case 'field':
    case 'function':
    case 'binary':
    case 'negative':
    case 'uncertain':
    case 'coverage':
    case 'convert':
      return undefined;
  }
}

/** The name by which a chart or a comparison would call this argument. */
function nameIn(node: Checked): string | undefined {
  if (node.type === 'name') return node.name;
  if (node.type === 'field') {
    const name = nameIn(node.of);
    return name === undefined ? undefined : `${name}.${node.field}`;
  }
  if (node.type === 'pick') {
    const name = nameIn(node.of);
    return name === undefined ? undefined : `${name}[${node.index}]`;
  }
  return undefined;
}
