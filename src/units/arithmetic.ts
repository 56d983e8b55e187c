import {
  dimensionOf,
  exponentOver,
  isDimensionless,
  isTurning,
  nameOfDimension,
  preferredSymbol,
  sameDimension,
} from './dimension.ts';
import { one, termsOf, unit } from './parse.ts';
import { merge, unitOf, type Term } from './terms.ts';
import type { Quantity, Unit } from './unit.ts';
import { powerOf } from '../numbers/power.ts';

export const quantity = (value: number, symbol: string): Quantity => ({ value, unit: unit(symbol) });

/** In SI units: `m/s^2`, `N/m`, `Hz`; a percentage as a fraction; a level in dB. */
export const inSI = ({ value, unit: { factor } }: Quantity): number => value * factor;

/** As `inSI`, to 15 digits: 95 % is 0.95 and not the 0.9500000000000001 that 95 times 0.01 gives. */
export const roundedSI = ({ value, unit: { factor } }: Quantity): number =>
  factor === 1 ? value : Number((value * factor).toPrecision(15));

/** The same quantity in another unit, or undefined when the dimensions differ. */
export function convert(from: Quantity, to: Unit): Quantity | undefined {
  if (!sameDimension(from.unit.dimension, to.dimension)) return undefined;
  if (from.unit.symbol === to.symbol) return { value: from.value, unit: to };
  // One division where the factors allow it keeps 60 s in min at 1 and not at 0.99….
  const { factor } = from.unit;
  return {
    value:
      to.factor <= 1 && factor <= 1 && factor > to.factor
        ? from.value * (factor / to.factor)
        : (from.value * factor) / to.factor,
    unit: to,
  };
}

/** In the unit of the first, or undefined when the dimensions differ. */
export function add(a: Quantity, b: Quantity): Quantity | undefined {
  const same = convert(b, a.unit);
  return same && { value: a.value + same.value, unit: a.unit };
}

/** In the unit of the first, or undefined when the dimensions differ. */
export function subtract(a: Quantity, b: Quantity): Quantity | undefined {
  const same = convert(b, a.unit);
  return same && { value: a.value - same.value, unit: a.unit };
}

export const multiply = (a: Quantity, b: Quantity): Quantity => product(a, b, 1);

/** A division by zero gives a value that is not finite: the caller refuses it. */
export const divide = (a: Quantity, b: Quantity): Quantity => product(a, b, -1);

export function power(a: Quantity, exponent: number): Quantity {
  const terms = known(a.unit).map((term) => ({ ...term, exponent: term.exponent * exponent }));
  const found = tidy(powerOf(a.value, exponent), merge(terms));
  return exponent === 0.5 ? angular(found, a.unit) : found;
}

/** The n-th root, square by default: sqrt of N/mm over kg is in rad/s. */
export function root(a: Quantity, n = 2): Quantity {
  const terms = known(a.unit).map((term) => ({ ...term, exponent: term.exponent / n }));
  const found = tidy(n === 2 ? Math.sqrt(a.value) : powerOf(a.value, 1 / n), merge(terms));
  return n === 2 ? angular(found, a.unit) : found;
}

/** The square root of what is no square of a frequency, as of k/m, is ω in rad/s; that of Hz^2 stays in Hz. */
function angular(found: Quantity, of: Unit): Quantity {
  const { dimension } = found.unit;
  if (!sameDimension(dimension, dimensionOf('frequency')) || countsTurns(of)) return found;
  return { value: inSI(found), unit: unit('rad/s') };
}

/** Whether a unit is spelled with Hz or rpm, which count turns, and not with s or as stiffness over mass. */
export const countsTurns = (of: Unit): boolean => known(of).some(turns);

const turns = ({ dimension }: Term): boolean => sameDimension(dimension, dimensionOf('frequency'));

export const negate = (a: Quantity): Quantity => ({ value: -a.value, unit: a.unit });

function product(a: Quantity, b: Quantity, sign: 1 | -1): Quantity {
  const value = sign === 1 ? a.value * b.value : a.value / b.value;
  if (b.unit.symbol === '') return { value, unit: a.unit };
  return tidy(value, [...known(a.unit), ...known(b.unit).map((term) => ({ ...term, exponent: sign * term.exponent }))]);
}

function known(of: Unit): readonly Term[] {
  const terms = termsOf(of.symbol);
  if ('unknown' in terms) throw new Error(`no such unit: ${of.symbol}`);
  return terms;
}

/**
 * Gathers terms that measure the same (`N/mm` times `m`, `Hz` times `s`) into the first one's unit, drops percent
 * signs that met another unit, and takes the SI name of the dimension where that is shorter: `kg*m/s^2` is N.
 */
function tidy(value: number, terms: readonly Term[]): Quantity {
  const kept: Term[] = [];
  for (const term of terms) {
    if (isDimensionless(term.dimension) && (terms.length > 1 || term.exponent !== 1)) {
      value *= powerOf(term.factor, term.exponent);
      continue;
    }
    const at = kept.findIndex(
      (other) => other.symbol === term.symbol || exponentOver(term.dimension, other.dimension) !== undefined,
    );
    if (at < 0) kept.push(term);
    else {
      const other = kept[at];
      const ratio = other.symbol === term.symbol ? 1 : exponentOver(term.dimension, other.dimension)!;
      if (other.symbol !== term.symbol) value *= powerOf(term.factor / powerOf(other.factor, ratio), term.exponent);
      kept[at] = { ...other, exponent: other.exponent + ratio * term.exponent };
    }
  }
  const merged = merge(kept);
  // Beside a length or a mass the radian has done its work: v = ω x is in mm/s.
  const left = isTurning(unitOf(merged).dimension) ? merged : merged.filter(({ symbol }) => symbol !== 'rad');
  if (left.length === 0) return { value, unit: one };
  const result = unitOf(left);
  const name = nameOfDimension(result.dimension);
  const odd =
    left.some(({ exponent }) => !Number.isInteger(exponent)) ||
    left.every(({ exponent }) => exponent < 0) ||
    (name === 'angular velocity' && left.some(turns));
  const shorter =
    name && (odd || termCount(preferredSymbol(name)) < left.length) ? unit(preferredSymbol(name)) : undefined;
  return shorter ? { value: (value * result.factor) / shorter.factor, unit: shorter } : { value, unit: result };
}

const termCount = (symbol: string): number => symbol.split(/[*/]/).length;
