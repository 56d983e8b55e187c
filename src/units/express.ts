import { convert, countsTurns } from './arithmetic.ts';
import { isTurning, sameDimension, withoutAngle } from './dimension.ts';
import type { Dimension, Quantity, Unit } from './unit.ts';
import { powerOf } from '../numbers/power.ts';

/**
 * The same quantity in another unit, as one asks for it: as `convert`, and between turns and radians too. A frequency
 * in Hz or rpm and an angular velocity differ by 2 pi, each way; an angle and a plain number by nothing.
 *
 * @returns undefined when the dimensions differ, and for rad/s in 1/s, which could be meant either way
 */
export function express(from: Quantity, to: Unit): Quantity | undefined {
  const turned = angleBetween(from.unit.dimension, to.dimension);
  if (turned === undefined || turned === 0) return convert(from, to);
  const free = from.unit.dimension.angle === 0 ? from.unit : to;
  const rate = isRate(free.dimension);
  if (rate && !countsTurns(free) && free === to) return undefined;
  const perTurn = rate && countsTurns(free) ? powerOf(2 * Math.PI, turned) : 1;
  return { value: (from.value * from.unit.factor * perTurn) / to.factor, unit: to };
}

/** Whether a quantity that measures this can be given in a unit, as far as that is known without its own unit. */
export function canExpress(from: Dimension, to: Unit): boolean {
  const turned = angleBetween(from, to.dimension);
  if (turned === undefined) return false;
  return !(turned < 0 && isRate(to.dimension)) || countsTurns(to);
}

/** How many radians more the second has than the first, where that is all they differ in and can be told apart. */
function angleBetween(from: Dimension, to: Dimension): number | undefined {
  if (!sameDimension(withoutAngle(from), withoutAngle(to))) return undefined;
  const more = to.angle - from.angle;
  // One side has to be free of angles, and of a rate there is one radian for each turn.
  const isClear =
    more === 0 || ((from.angle === 0 || to.angle === 0) && (!isRate(from) || Math.abs(more) === -from.time));
  return isClear ? more : undefined;
}

/** Of 1/s and its powers, where a radian counts. */
const isRate = (a: Dimension): boolean => isTurning(a) && a.time < 0;
