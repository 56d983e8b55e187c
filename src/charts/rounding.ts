import { tenTo } from '../numbers/power.ts';
import type { Literal } from './handle.ts';
import { log10Of } from '../numbers/logarithm.ts';

/** The least step of 1, 2 or 5 times a power of ten that is not below a size. */
export function stepOf(size: number): number {
  if (!(size > 0) || !Number.isFinite(size)) return 1;
  const power = tenTo(Math.floor(log10Of(size) + 1e-9));
  const times = [1, 2, 5, 10].find((candidate) => candidate * power >= size * (1 - 1e-9)) ?? 10;
  return Number((times * power).toPrecision(6));
}

/** A number as it is to stand in the text, a whole number of steps. */
export function written(value: number, step: number): string {
  const decimals = Math.max(0, Math.ceil(-log10Of(step) - 1e-9));
  const rounded = Number((Math.round(value / step) * step).toFixed(Math.min(20, decimals)));
  return String(rounded === 0 ? 0 : rounded);
}

/** Of a value on the axis in s or Hz the number in the literal's own unit, and back. */
export const numberAt = ({ origin, sign, factor }: Literal, at: number): number => (sign * (at - origin)) / factor;
export const axisValueOf = ({ origin, sign, factor }: Literal, number: number): number =>
  Number((origin + sign * number * factor).toPrecision(12));
