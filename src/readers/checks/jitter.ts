import type { StampClock } from '../clock/clock.ts';
import type { Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';

/** Unevenness of the steps between samples, with the rounding of the stamps taken out. */
export function jitterFinding({ jitter }: StampClock): Finding | undefined {
  const { note, resample, refuse } = settings.jitter;
  if (jitter <= note) return undefined;
  const [severity, treatment, threshold] =
    jitter > refuse
      ? (['fault', 'refused', refuse] as const)
      : jitter > resample
        ? (['warning', 'resampled', resample] as const)
        : (['note', 'taken as even', note] as const);
  return finding('uneven', severity, { jitter, treatment }, { value: jitter, threshold });
}
