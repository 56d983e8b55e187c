import type { StampClock } from '../clock/clock.ts';
import type { Finding } from '../recording.ts';
import { percent } from '../refusal.ts';
import { settings } from '../settings.ts';

/** Unevenness of the steps between samples, with the rounding of the stamps taken out. */
export function jitterFinding({ jitter }: StampClock): Finding | undefined {
  const { note, resample, refuse } = settings.jitter;
  if (jitter <= note) return undefined;
  const severity = jitter > refuse ? 'fault' : jitter > resample ? 'warning' : 'note';
  const advice =
    jitter > refuse
      ? 'too uneven for a spectrum unless resample is written'
      : jitter > resample
        ? 'it is resampled to a uniform rate before a spectrum'
        : 'taken as even';
  return {
    code: 'uneven',
    severity,
    message: `Steps between samples vary by ${percent(jitter)} of their mean: ${advice}.`,
    value: jitter,
    threshold: jitter > refuse ? refuse : jitter > resample ? resample : note,
  };
}
