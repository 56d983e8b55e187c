import type { Quantity } from './unit.ts';
import { log10Of } from '../numbers/logarithm.ts';

/** What stands where there is no number: never `NaN` or `Infinity`. */
const noNumber = '–';

/**
 * A number to so many significant digits, without trailing zeros, with an exponent only where the plain writing would
 * be long: 0.0123, 12.35, 1.5e-7, 250000.
 */
export function formatNumber(value: number, digits = 4): string {
  if (!Number.isFinite(value)) return noNumber;
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e7 || size < 1e-4) {
    const [mantissa, exponent] = value.toExponential(digits - 1).split('e');
    return `${trimZeros(mantissa)}e${Number(exponent)}`;
  }
  // A whole number is not rounded: 12345 samples stay 12345.
  if (Number.isInteger(value)) return String(value);
  const rounded = Number(value.toPrecision(digits));
  const decimals = Math.max(0, digits - 1 - Math.floor(log10Of(Math.abs(rounded))));
  return trimZeros(rounded.toFixed(decimals));
}

/** One number where all are written alike, else the least and the most of them: `19 to 20`. @param values one at least */
export function formatSpread(values: readonly number[], digits = 4): string {
  const [least, most] = [Math.min(...values), Math.max(...values)].map((value) => formatNumber(value, digits));
  return least === most ? least : `${least} to ${most}`;
}

/** The number, a blank and the unit: `40 N/mm`, `15 %`, `0.25`. */
export function formatQuantity({ value, unit }: Quantity, digits = 4): string {
  const number = formatNumber(value, digits);
  return unit.symbol === '' || number === noNumber ? number : `${number} ${unit.symbol}`;
}

const trimZeros = (text: string): string => (text.includes('.') ? text.replace(/\.?0+$/, '') : text);
