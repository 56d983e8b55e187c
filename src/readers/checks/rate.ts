import type { Finding } from '../recording.ts';
import { figure, percent } from '../refusal.ts';
import { settings } from '../settings.ts';

/** The measured rate beside a stated one. */
export function rateFinding(
  measured: number,
  stated: { readonly rate: number; readonly name: string },
): Finding | undefined {
  const off = measured / stated.rate - 1;
  if (Math.abs(off) <= settings.rate.note) return undefined;
  const warning = Math.abs(off) > settings.rate.warning;
  return {
    code: 'rate-differs',
    severity: warning ? 'warning' : 'note',
    message: `The stamps give ${figure(measured)} Hz, ${percent(Math.abs(off))} ${off > 0 ? 'above' : 'below'} the ${figure(stated.rate)} Hz of ${stated.name}; frequencies scale with the rate, so check which is right.`,
    value: off,
    threshold: warning ? settings.rate.warning : settings.rate.note,
  };
}
