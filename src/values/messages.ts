import { messages } from '../result/messages.ts';
import { listed } from '../result/words.ts';
import { describeDimension, dimensionOf, nameOfDimension, sameDimension } from '../units/dimension.ts';
import { unit as unitNamed } from '../units/parse.ts';
import type { Unit } from '../units/unit.ts';

/** What can be said of fields and picks, and the facts it is made of. */
export interface ValueFacts {
  'field.kind': { readonly kind: string };
  'field.unknown': {
    readonly kind: string;
    readonly field: string;
    readonly near: string | undefined;
    readonly known: readonly string[];
  };
  'field.many': { readonly field: string; readonly each: string; readonly count: number };
  'field.absent': { readonly field: string };
  /** `units` are those that stand in the value. */
  'unit.other': { readonly kind: string; readonly units: readonly string[]; readonly unit: Unit };
  'pick.kind': { readonly kind: string };
  'pick.outside': { readonly index: number; readonly count: number };
}

/** What turns one of the three kinds of motion into the one asked for. */
const motion = { speed: 'velocity', length: 'displacement' } as const;

function otherUnit({ kind, units, unit }: ValueFacts['unit.other']): string {
  const found = units.length === 0 ? '' : `, in ${listed(units, 'and', 4)},`;
  const name = nameOfDimension(unit.dimension);
  const goal = name === 'speed' || name === 'length' ? motion[name] : undefined;
  const integrates =
    goal !== undefined &&
    units.some((symbol) => sameDimension(unitNamed(symbol).dimension, dimensionOf('acceleration')));
  const help = integrates ? `: make a ${goal} of the acceleration first, with "integrate … to ${goal}".` : '.';
  return `Nothing of ${kind}${found} can be told in ${unit.symbol}, which is for ${describeDimension(unit.dimension)}${help}`;
}

export const { refuse } = messages<ValueFacts>({
  'unit.other': otherUnit,
  'field.kind': ({ kind }) => `A value of the kind ${kind} has no fields.`,
  'field.unknown': ({ kind, field, near, known }) =>
    `A value of the kind ${kind} has no field ${field}: ${near === undefined ? `it has ${known.join(', ')}` : `did you mean ${near}`}.`,
  'field.many': ({ field, each, count }) =>
    `There is one ${field} for each ${each}, ${count} in all: pick one first, as in "name[1].${field}".`,
  'field.absent': ({ field }) =>
    `There is no ${field} here: the data did not allow one, or it is not defined for what this is of.`,
  'pick.kind': ({ kind }) =>
    `Only a set of runs, or what was made from one, can be picked from; this is of the kind ${kind}.`,
  'pick.outside': ({ index, count }) =>
    `There ${count === 1 ? 'is only 1' : `are only ${count}`} to pick from, counted from 1, so [${index}] picks nothing.`,
});
