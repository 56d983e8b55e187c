import type { StampClock } from '../clock/clock.ts';
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
export function uncertainRate({ rate, least, hidesLosses, quantum, span }: StampClock): Finding | undefined {
  const off = least / rate - 1;
  const unsure = settings.uncertain + (2 * quantum) / span;
  if (!(off > unsure) && !hidesLosses) return undefined;
  const facts = { rate, least: off > 0 ? least : undefined, quantum };
  return finding('rate-uncertain', 'warning', facts, { value: off, threshold: unsure });
}
