import type { Checked, CheckedArgument, CheckedArguments } from '../language/checked.ts';
import type { Quantity, Unit } from '../units/unit.ts';

/** Where the content key of an expression comes from, besides its own shape. */
export interface KeySource {
  readonly digest: (text: string) => string;
  /** Key of the value bound to a name. */
  readonly nameKey: (name: string) => Promise<string>;
  /** Paths and hashes of the raw files that a call reads; undefined for a verb that reads none. */
  readonly rawFiles: (call: Extract<Checked, { type: 'call' }>) => Promise<string | undefined>;
  /** Of a verb that reads the history: where the project stands, and how the call is written. */
  readonly history: (call: Extract<Checked, { type: 'call' }>) => Promise<readonly string[]>;
}

/** Digests each text once, since the steps of a chain are keyed again by every statement that goes over it. */
export function digestingOnce(digest: (text: string) => string): (text: string) => string {
  const known = new Map<string, string>();
  return (text) => {
    let found = known.get(text);
    if (found === undefined) known.set(text, (found = digest(text)));
    return found;
  };
}

const unitKey = (unit: Unit): string => `${unit.symbol}:${unit.factor}`;
const quantityKey = ({ value, unit }: Quantity): string => `${value} ${unitKey(unit)}`;

/** The content keys of a notebook's expressions for the length of one run, each computed once. */
export class Keys {
  readonly #source: KeySource;
  readonly #known = new Map<CheckedArgument, Promise<string>>();

  constructor(source: KeySource) {
    this.#source = source;
  }

  /**
   * The content key of an expression: a text that two expressions share exactly if they must give the same value.
   * Places and spelling do not enter it; verb, arguments, the keys of operands and the hashes of raw files do.
   */
  of(node: CheckedArgument): Promise<string> {
    let key = this.#known.get(node);
    if (key === undefined) this.#known.set(node, (key = keyOf(node, this.#source, (part) => this.of(part))));
    return key;
  }

  /** The content key of a call but for some of its operands and options. */
  async ofStep(
    { verb, operands, options }: Extract<Checked, { type: 'call' }>,
    without: readonly string[],
  ): Promise<string> {
    const of: KeyOf = (part) => this.of(part);
    const rest = (given: CheckedArguments): CheckedArguments =>
      Object.fromEntries(Object.entries(given).filter(([name]) => !without.includes(name)));
    const keys = [await argumentsKey(rest(operands), of), await argumentsKey(rest(options), of)];
    return this.#source.digest(JSON.stringify([verb, ...keys]));
  }
}

type KeyOf = (node: CheckedArgument) => Promise<string>;

async function keyOf(node: CheckedArgument, source: KeySource, of: KeyOf): Promise<string> {
  // What holds other keys is digested: a text within a text within a text would double with each.
  const digested = (parts: readonly unknown[]): string => source.digest(JSON.stringify(parts));
  const inner = (nodes: readonly CheckedArgument[]): Promise<string[]> => Promise.all(nodes.map(of));
  switch (node.type) {
    case 'call': {
      const given = [await argumentsKey(node.operands, of), await argumentsKey(node.options, of)];
      const outside = [(await source.rawFiles(node)) ?? null, ...(await source.history(node))];
      return digested([node.verb, ...given, ...outside]);
    }
    case 'name':
      // A turn later: names that need names in a long chain would exhaust the stack.
      await Promise.resolve();
      return digested(['name', node.name, await source.nameKey(node.name)]);
    case 'pick':
      return digested(['pick', ...(await inner([node.of])), node.index]);
    case 'field':
      return digested(['field', ...(await inner([node.of])), node.field]);
    case 'quantity':
      return JSON.stringify(['quantity', quantityKey(node.quantity)]);
    case 'range':
      return JSON.stringify(['range', quantityKey(node.from), quantityKey(node.to)]);
    case 'text':
      return JSON.stringify(['text', node.text]);
    case 'word':
      return JSON.stringify(['word', node.word, node.text ?? null]);
    case 'unit':
      return JSON.stringify(['unit', unitKey(node.unit)]);
    case 'binary':
      return digested([node.operator, ...(await inner([node.left, node.right]))]);
    case 'negative':
      return digested(['negative', ...(await inner([node.of]))]);
    case 'uncertain':
      return digested(['±', ...(await inner([node.of])), quantityKey(node.by), node.freedom ?? null]);
    case 'coverage':
      return digested(['coverage', ...(await inner([node.of])), node.level]);
    case 'convert':
      return digested(['in', ...(await inner([node.of])), unitKey(node.unit)]);
    case 'function':
      return digested(['function', node.name, ...(await inner(node.arguments))]);
    case 'group':
      return digested(['group', ...(await inner(node.parts))]);
  }
}

async function argumentsKey(given: CheckedArguments, of: KeyOf): Promise<unknown> {
  const names = Object.keys(given).sort();
  return Promise.all(names.map(async (name) => [name, ...(await Promise.all(given[name].map(of)))]));
}
