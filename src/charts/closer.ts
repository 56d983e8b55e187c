import type { AxisRange } from './making.ts';
import { standing } from './standing.ts';

type Stretch = Pick<AxisRange, 'from' | 'to'>;

const current = standing<AxisRange | undefined>(undefined);

/** Makes charts that show no more than a stretch of their axis, whatever they were asked to show: their reader looks closer. */
export const shownOver = <T>(wanted: AxisRange | undefined, make: () => T): T => current.during(wanted, make);

/** The stretch that is looked at, where it is one of this axis; else what was asked for. */
export function lookedAt<Asked extends Stretch | undefined>(axis: AxisRange['axis'], asked: Asked): Stretch | Asked {
  const closer = current.now();
  return closer?.axis === axis ? { from: closer.from, to: closer.to } : asked;
}
