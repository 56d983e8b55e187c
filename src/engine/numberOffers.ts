import { printedUnit } from '../values/number.ts';
import { fieldOf, fieldsOf } from '../values/fields.ts';
import { pickOf } from '../values/pick.ts';
import type { Quantity } from '../units/unit.ts';
import type { Value } from '../values/value.ts';
import { log10Of } from '../numbers/logarithm.ts';

/** A number that could stand in the prose. */
export interface NumberOffer {
  /** `bricks.change`. */
  readonly expression: string;
  /** As it would be written, with its unit: `−21.5 %`. */
  readonly text: string;
  /** What it is, in words. */
  readonly doc: string;
}

/** Of a result with more rows than these, the rest is for who writes it by hand. */
const mostRows = 12;

/** Every figure of the named values that can be asked for by name, as it would stand in prose. */
export function offersOf(values: ReadonlyMap<string, Value>): readonly NumberOffer[] {
  return [...values].flatMap(([name, value]) => {
    if (value.kind === 'quantity') return offer(name, value, 'a quantity');
    const fields = fieldsOf(value.kind);
    return fields.length === 0
      ? []
      : rowsOf(name, value).flatMap((row) => fields.flatMap((field) => ofField(row, field)));
  });
}

/** The value itself, or where it has several rows each of them. */
function rowsOf(name: string, value: Value): { expression: string; value: Value }[] {
  const rows: { expression: string; value: Value }[] = [];
  for (let row = 1; row <= mostRows; row++) {
    const picked = pickOf(value, row);
    if (!picked.ok) break;
    rows.push({ expression: `${name}[${row}]`, value: picked.value });
  }
  return rows.length < 2 ? [{ expression: name, value }] : rows;
}

function ofField(
  { expression, value }: { readonly expression: string; readonly value: Value },
  { name, doc }: { readonly name: string; readonly doc: string },
): NumberOffer[] {
  const found = fieldOf(value, name);
  return found.ok && found.value.kind === 'quantity' ? offer(`${expression}.${name}`, found.value, doc) : [];
}

function offer(expression: string, { quantity }: { readonly quantity: Quantity }, doc: string): NumberOffer[] {
  const symbol = printedUnit(quantity.unit.symbol);
  const number = numberText(quantity);
  return [{ expression, text: symbol === '' ? number : `${number} ${symbol}`, doc }];
}

/** Percentages to a tenth, anything else to three digits; whole numbers as they are. */
function numberText({ value, unit }: Quantity): string {
  if (Number.isInteger(value) && Math.abs(value) < 1e6) return withMinus(String(value));
  if (unit.symbol === '%') return withMinus(value.toFixed(1));
  const exponent = Math.floor(log10Of(Math.abs(value)));
  if (exponent < -5 || exponent >= 6) return withMinus(value.toExponential(2).replace('e+', 'e'));
  return withMinus(value.toFixed(Math.max(0, 2 - exponent)));
}

const withMinus = (text: string): string => text.replace(/^-/, '−');
