import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import type { Check } from './checked.ts';

/** Whether the rate is high enough for the band that is asked about. */
export const band: Check = (run, { high }) => {
  const { top: share } = settings.band;
  const { rate } = run;
  if (high === undefined || high <= share * rate) return [];
  const isPastHalf = high > rate / 2;
  const facts = { high, rate, share, top: share * rate, wantedRate: high / share, isPastHalf };
  const basis = { value: high / rate, threshold: isPastHalf ? 0.5 : share };
  return [finding('band-high', isPastHalf ? 'fault' : 'warning', facts, basis)];
};
