import type { AxisRange } from './making.ts';

type Stretch = Pick<AxisRange, 'from' | 'to'>;

let current: AxisRange | undefined;

/**
 * Makes charts that show no more than a stretch of their axis, whatever they were asked to show: their reader looks closer. It stands
 * here while `make` runs, as a layout does, since every plot asks for it.
 */
export function shownOver<T>(wanted: AxisRange | undefined, make: () => T): T {
  const before = current;
  current = wanted;
  try {
    return make();
  } finally {
    current = before;
  }
}

/** The stretch that is looked at, where it is one of this axis; else what was asked for. */
export const lookedAt = <Asked extends Stretch | undefined>(axis: AxisRange['axis'], asked: Asked): Stretch | Asked =>
  current?.axis === axis ? { from: current.from, to: current.to } : asked;
