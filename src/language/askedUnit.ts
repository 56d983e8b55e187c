import { canExpress } from '../units/express.ts';
import { parseUnit } from '../units/parse.ts';
import type { Dimension } from '../units/unit.ts';
import { constants } from './constants.ts';
import type { Convert, Expression, Item, Missing, Operand, Step, UnitName } from './tree.ts';
import type { Work } from './work.ts';

/** A verb's items, and the units that its result is asked for in, in the order of the text. */
export interface AskedUnits {
  readonly items: readonly Item[];
  readonly units: readonly (UnitName | Missing)[];
}

type Names = Pick<Work, 'bound' | 'use'>;

/**
 * Parts `in UNIT` from a verb's items: among them it asks for the verb's result in that unit (`levels v in mm/s`), unless
 * it stands behind a quantity that can be told in it (`mark f in Hz`).
 */
export function askedUnits({ items, asked }: Step, names: Names): AskedUnits {
  const units: (UnitName | Missing)[] = [];
  const parted = items.map(({ node, comma }) => ({ node: withoutUnit(node, units, names), comma }));
  return { items: parted, units: [...units, ...asked] };
}

function withoutUnit(node: Operand, units: (UnitName | Missing)[], names: Names): Operand {
  if (node.type === 'range') {
    const to = withoutUnit(node.to, units, names) as Expression;
    return to === node.to ? node : { ...node, to, place: { from: node.place.from, to: to.place.to } };
  }
  if (node.type !== 'convert' || isOfQuantity(node, names)) return node;
  const of = withoutUnit(node.of, units, names);
  units.push(node.unit);
  return of;
}

/** Whether what is converted is certainly a quantity of that dimension, or one whose dimension is not known yet. */
function isOfQuantity({ of, unit }: Convert, names: Names): boolean {
  const measured = dimensionIn(of, names);
  if (measured === undefined) return false;
  const parsed = unit.type === 'missing' ? undefined : parseUnit(unit.text);
  return measured === 'any' || parsed?.ok !== true || canExpress(measured, parsed.unit);
}

/** What a quantity measures, as far as its text and the names tell; undefined of what is none. */
function dimensionIn(node: Expression, names: Names): Dimension | 'any' | undefined {
  switch (node.type) {
    case 'number': {
      const parsed = parseUnit(node.unit?.text ?? '');
      return parsed.ok ? parsed.unit.dimension : 'any';
    }
    case 'word': {
      if (!names.bound(node.text))
        return Object.hasOwn(constants, node.text) ? constants[node.text].unit.dimension : undefined;
      const { kind, dimension } = names.use(node.text);
      return kind === 'quantity' ? (dimension ?? 'any') : undefined;
    }
    case 'negative':
      return dimensionIn(node.of, names);
    case 'binary':
      return dimensionIn(node.left, names) && dimensionIn(node.right, names) && 'any';
    case 'convert':
    case 'uncertain':
    case 'coverage':
      return dimensionIn(node.of, names);
    case 'bracket': {
      const last = node.inner.steps[node.inner.steps.length - 1];
      return last.type === 'step' ? undefined : dimensionIn(last, names);
    }
    case 'call':
    case 'field':
      return 'any';
    case 'text':
    case 'pick':
    case 'missing':
      return undefined;
  }
}
