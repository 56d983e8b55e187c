import { unsureBy, type StampClock } from '../clock/clock.ts';
import type { Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';

/** The measured rate beside a stated one. */
export function rateFinding(
  measured: number,
  stated: { readonly rate: number; readonly name: string },
): Finding | undefined {
  const off = measured / stated.rate - 1;
  if (Math.abs(off) <= settings.rate.note) return undefined;
  const warning = Math.abs(off) > settings.rate.warning;
  const facts = { measured, off, stated: stated.rate, name: stated.name };
  const threshold = warning ? settings.rate.warning : settings.rate.note;
  return finding('rate-differs', warning ? 'warning' : 'note', facts, { value: off, threshold });
}

/** Stamps about as coarse as the step that hide how many samples are lost, so that the rate is too low. */
export function uncertainRate(clock: StampClock): Finding | undefined {
  const unsure = unsureBy(clock);
  if (unsure === undefined) return undefined;
  const { rate, least, quantum, leastLost, missing } = clock;
  const { off, threshold } = unsure;
  const lost = leastLost === undefined || leastLost === 0 ? undefined : { least: leastLost, most: missing };
  const facts = { rate, least: off > 0 ? least : undefined, quantum, lost };
  return finding('rate-uncertain', 'warning', facts, { value: off, threshold });
}
