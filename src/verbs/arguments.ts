import { roundedSI as si } from '../units/arithmetic.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import type { Band } from '../values/band.ts';
import type { Value, ValueOf } from '../values/value.ts';
import type { Argument, Arguments } from './verb.ts';

export { si };

// The checker has held every call against its form, so an operand that the form demands is there and of its kind.

/** The value under an operand's name, which the form guarantees to be of this kind. */
export function valueOf<K extends Value['kind']>(given: Arguments, name: string, kind: K): ValueOf<K> {
  const found = given.operands[name]?.[0];
  if (found?.type === 'value' && found.value.kind === kind) return found.value as ValueOf<K>;
  throw new Error(`operand ${name} is not of kind ${kind}`);
}

/** An argument under an operand's name or an option's keyword, or undefined. */
export const operand = (given: Arguments, name: string): Argument | undefined => given.operands[name]?.[0];
export const option = (given: Arguments, name: string): Argument | undefined => given.options[name]?.[0];

export const hasFlag = (given: Arguments, name: string): boolean => given.options[name] !== undefined;

export function quantityIn(argument: Argument | undefined): Quantity | undefined {
  return argument?.type === 'quantity' ? argument.quantity : undefined;
}

/** The size of an operand that the form demands, in SI units. */
export function sizeOf(given: Arguments, name: string): number {
  const quantity = quantityIn(operand(given, name));
  if (quantity === undefined) throw new Error(`operand ${name} is no quantity`);
  return si(quantity);
}

/** The ends of a range in SI units, or undefined where there is none. */
export function rangeIn(argument: Argument | undefined): { readonly from: number; readonly to: number } | undefined {
  return argument?.type === 'range' ? { from: si(argument.from), to: si(argument.to) } : undefined;
}

/** An option's quantity in SI units: s, Hz, a plain ratio. */
export function siOf(given: Arguments, name: string): number | undefined {
  const quantity = quantityIn(option(given, name));
  return quantity === undefined ? undefined : si(quantity);
}

export function textOf(argument: Argument | undefined): string | undefined {
  if (argument?.type === 'text') return argument.text;
  return argument?.type === 'word' ? (argument.text ?? argument.word) : undefined;
}

/** The texts and words of a list of arguments. */
export const textsIn = (given: readonly Argument[] = []): string[] =>
  given.flatMap((argument) => textOf(argument) ?? []);

export function wordOf(argument: Argument | undefined): string | undefined {
  return argument?.type === 'word' ? argument.word : undefined;
}

export function unitOf(argument: Argument | undefined): Unit | undefined {
  return argument?.type === 'unit' ? argument.unit : undefined;
}

/** The ranges among arguments, in SI units: s, Hz. */
export const rangesIn = (given: readonly Argument[] = []): Band[] =>
  given.flatMap((argument) => (argument.type === 'range' ? [{ from: si(argument.from), to: si(argument.to) }] : []));

/** The values of one kind among arguments. */
export const valuesIn = <K extends Value['kind']>(given: readonly Argument[], kind: K): ValueOf<K>[] =>
  given.flatMap((argument) =>
    argument.type === 'value' && argument.value.kind === kind ? [argument.value as ValueOf<K>] : [],
  );
