import { figure } from '../refusal.ts';
import { settings } from '../settings.ts';
import type { Check } from './checked.ts';

/** Whether the rate is high enough for the band that is asked about. */
export const band: Check = (run, { high }) => {
  if (high === undefined || high <= settings.band.top * run.rate) return [];
  const past = high > run.rate / 2;
  const message = past
    ? `The band reaches to ${figure(high)} Hz, past half the rate of ${figure(run.rate)} Hz, where a recording holds nothing: end it below ${figure(settings.band.top * run.rate)} Hz.`
    : `The band reaches to ${figure(high)} Hz, above ${settings.band.top} of the rate (${figure(settings.band.top * run.rate)} Hz), where the logger's filter or folding may show: end it lower, or record at ${figure(high / settings.band.top)} Hz.`;
  return [
    {
      code: 'band-high',
      severity: past ? 'fault' : 'warning',
      message,
      value: high / run.rate,
      threshold: past ? 0.5 : settings.band.top,
    },
  ];
};
