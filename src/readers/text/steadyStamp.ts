import type { StampReader } from './stamp.ts';
import { zoneMinutes } from './stamp.ts';
import type { SteadyStamp } from './stampForm.ts';

const steady = /^(\d{4}[-/.]\d\d[-/.]\d\d[T _])?\d\d:\d\d:\d\d(?:[.,]\d{1,9})?(Z|[+-]\d\d:?\d\d)?$/;

/** How a reader's stamps are spelt, by one that it has read; undefined where they are spelt in another way. */
export function steadyStamp({ form, base }: StampReader, text: string): SteadyStamp | undefined {
  const { date, clock, fraction, worded } = form;
  const parts = steady.exec(text);
  if (parts === null || clock !== 'hms' || fraction !== 'decimal' || worded === true) return undefined;
  const [day, suffix = ''] = [parts.at(1), parts.at(2)];
  const isDated = day !== undefined;
  if (date !== (isDated ? 'ymd' : 'none') || (isDated && base === undefined)) return undefined;
  return { isDated, base: base ?? 0, suffix, offset: 60 * (zoneMinutes(suffix) ?? 0) };
}
