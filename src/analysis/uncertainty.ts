import { studentTInterval } from '../statistics/distributions/studentT.ts';
import { success, type Result } from '../result/result.ts';
import { convert, inSI } from '../units/arithmetic.ts';
import type { Operator } from '../units/operate.ts';
import {
  covariance,
  effectiveDf,
  standardUncertainty,
  summedParts,
  type UncertaintyPart,
  type UncertaintyParts,
} from '../units/uncertainty.ts';
import type { Quantity } from '../units/unit.ts';
import type { QuantityValue } from '../values/quantity.ts';
import { powerOf } from '../numbers/power.ts';
import { logOf } from '../numbers/logarithm.ts';

const partsOf = ({ parts = [] }: QuantityValue): UncertaintyParts => parts;

const isUncertain = (given: readonly QuantityValue[]): boolean => given.some(({ parts }) => parts !== undefined);

/** A quantity with parts, or without where there are none. */
const withParts = (quantity: Quantity, parts: UncertaintyParts | undefined): QuantityValue => ({
  kind: 'quantity',
  quantity,
  ...(parts === undefined ? {} : { parts }),
});

/** A quantity with a further independent input. @param size its standard uncertainty, in the quantity's unit */
export const withInput = (value: QuantityValue, part: UncertaintyPart): QuantityValue =>
  withParts(
    value.quantity,
    summedParts([
      [1, partsOf(value)],
      [1, [part]],
    ]),
  );

/**
 * The stated standard uncertainty in a quantity's unit: a percentage is of the quantity, unless that is one itself.
 * Undefined where it measures something else.
 */
export function statedSize({ value, unit }: Quantity, by: Quantity): number | undefined {
  if (by.unit.symbol === '%' && unit.symbol !== '%') return Math.abs(value) * inSI(by);
  const size = convert(by, unit)?.value;
  return size === undefined ? undefined : Math.abs(size);
}

/**
 * What was computed of two quantities, with the uncertainty that first-order propagation gives it (JCGM 100:2008, 5.1.2).
 * @param found the result, of the operator on their values
 */
export function operatedWith(
  operator: Operator,
  left: QuantityValue,
  right: QuantityValue,
  found: Quantity,
): QuantityValue {
  if (!isUncertain([left, right])) return withParts(found, undefined);
  const [a, b] = [inSI(left.quantity), inSI(right.quantity)];
  const [towardsA, towardsB] = slopes(operator, a, b);
  const { factor } = found.unit;
  const by = (slope: number, { quantity: { unit } }: QuantityValue): number => (slope * unit.factor) / factor;
  const terms = [
    ...(left.parts === undefined ? [] : [[by(towardsA, left), left.parts] as const]),
    ...(right.parts === undefined ? [] : [[by(towardsB, right), right.parts] as const]),
  ];
  return withParts(found, summedParts(terms));
}

/** Partial derivatives of the result by both, in SI units. */
function slopes(operator: Operator, a: number, b: number): readonly [number, number] {
  switch (operator) {
    case '+':
      return [1, 1];
    case '-':
      return [1, -1];
    case '*':
      return [b, a];
    case '/':
      return [1 / b, -a / b ** 2];
    case '^':
      return [b * powerOf(a, b - 1), powerOf(a, b) * logOf(a)];
  }
}

/**
 * What was made of a quantity by a factor, as by a change of unit or sign, with its uncertainty.
 * @param coefficient the factor between the figures of both, in their own units
 */
export const timesWith = (of: QuantityValue, found: Quantity, coefficient: number): QuantityValue =>
  withParts(found, of.parts && summedParts([[coefficient, of.parts]]));

/** Share of a figure by which it is moved for a slope; central differences are then good to some 1e-9 of it. */
const nudge = 1e-4;

/**
 * What a function gives with the uncertainty of its arguments: slopes by central differences (JCGM 100:2008, 5.1.3 note 2),
 * one-sided where the function has no value on the other side.
 * @param given the arguments
 */
export function evaluatedWith(
  evaluate: (given: readonly Quantity[]) => Result<QuantityValue>,
  given: readonly QuantityValue[],
): Result<QuantityValue> {
  const quantities = given.map(({ quantity }) => quantity);
  const found = evaluate(quantities);
  if (!found.ok || !isUncertain(given)) return found;
  const { quantity } = found.value;
  const terms = given.flatMap(({ parts }, at) => {
    if (parts === undefined) return [];
    const slope = slopeOf(evaluate, quantities, at, quantity, standardUncertainty(parts));
    return [[slope, parts] as const];
  });
  return success(withParts(quantity, summedParts(terms)));
}

function slopeOf(
  evaluate: (given: readonly Quantity[]) => Result<QuantityValue>,
  given: readonly Quantity[],
  at: number,
  middle: Quantity,
  size: number,
): number {
  const step = nudge * (Math.abs(given[at].value) || size || 1);
  const moved = (by: number): number | undefined => {
    const found = evaluate(given.map((one, k) => (k === at ? { ...one, value: one.value + by } : one)));
    return found.ok ? convert(found.value.quantity, middle.unit)?.value : undefined;
  };
  const [above, below] = [moved(step), moved(-step)];
  if (above !== undefined && below !== undefined) return (above - below) / (2 * step);
  if (above !== undefined) return (above - middle.value) / step;
  return below === undefined ? NaN : (middle.value - below) / step;
}

/**
 * A quantity with its interval of coverage: k from Student's t at the effective degrees of freedom, cut to a whole number
 * once rounded to 0.01 (JCGM 100:2008, G.4 and H.1.6).
 * @param confidence 0 to 1
 */
export function withCoverage(value: QuantityValue, confidence: number): QuantityValue {
  const df = effectiveDf(partsOf(value));
  const whole = Math.max(1, Math.floor(Number(df.toFixed(2))));
  // Beyond a hundred million t is normal to every digit.
  const factor = studentTInterval(confidence, Number.isFinite(whole) ? Math.min(whole, 1e8) : 1e8);
  return { ...value, coverage: { confidence, factor } };
}

/** The coefficient of correlation of two quantities, from the inputs that they share; NaN where one of them is certain. */
export function correlationOf(a: QuantityValue, b: QuantityValue): number {
  const [u, v] = [a, b].map((one) => standardUncertainty(partsOf(one)));
  return covariance(partsOf(a), partsOf(b)) / (u * v);
}

/**
 * A quantity whose uncertainty is correlated with others by stated coefficients, so that C.V.C' of JCGM 100:2008, 5.2.2
 * follows from shared inputs: its unit vector is Σ α_j e_j + β n, with G α = r, G the correlations among the others, e_j
 * their directions and n an input of its own.
 * @returns undefined where no quantity can be so correlated with the others
 */
export function correlatedWith(
  of: QuantityValue,
  others: readonly { readonly value: QuantityValue; readonly coefficient: number }[],
  input: string,
): QuantityValue | undefined {
  const gram = others.map(({ value }) => others.map((other) => correlationOf(value, other.value)));
  const wanted = others.map(({ coefficient }) => coefficient);
  const weights = solved(gram, wanted);
  const shared = weights?.reduce((sum, weight, k) => sum + weight * wanted[k], 0);
  if (weights === undefined || shared === undefined || !(shared <= 1 + 1e-9)) return undefined;
  const size = standardUncertainty(partsOf(of));
  const own = { input, size: size * Math.sqrt(Math.max(0, 1 - shared)), df: Infinity };
  const terms = others.map(({ value }, k) => {
    const parts = partsOf(value);
    return [(size * weights[k]) / standardUncertainty(parts), parts] as const;
  });
  return withParts(of.quantity, summedParts([...terms, [1, [own]]]));
}

/** Solution of a few linear equations by elimination with pivots; undefined where they have no single one. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | undefined {
  const rows = matrix.map((row, k) => [...row, right[k]]);
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    const pivot = rows
      .slice(column)
      .reduce((best, row) => (Math.abs(row[column]) > Math.abs(best[column]) ? row : best));
    if (!(Math.abs(pivot[column]) > 1e-12)) return undefined;
    rows.splice(rows.indexOf(pivot), 1, rows[column]);
    rows[column] = pivot;
    for (const row of rows) {
      if (row === pivot) continue;
      const share = row[column] / pivot[column];
      for (let k = column; k <= size; k++) row[k] -= share * pivot[k];
    }
  }
  return rows.map((row, k) => row[size] / row[k]);
}
