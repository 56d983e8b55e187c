import { log10Of } from '../../numbers/logarithm.ts';
import { unsureBy, type StampClock } from '../clock/clock.ts';
import type { Clock, Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import type { Lines } from './gaps.ts';

/**
 * Stamps that repeat, run backwards or are rounded, and what was made of them.
 * @param isStated whether the rate is stated, and not taken from the stamps
 */
export function deliveryFinding(clock: StampClock, isStated: boolean): Finding | undefined {
  const { delivery, repeated, backward, quantum, rate, each } = clock;
  const facts = { repeated, backward, quantum, rate, each };
  switch (delivery) {
    case 'bursts':
      return finding('bursts', 'warning', facts, { value: repeated + backward });
    case 'coarse':
      return finding('coarse-stamps', 'note', facts, { value: quantum });
    case 'rounded':
      if (!isStated && mayBeLosses(clock)) {
        const [other, share] = [1 / quantum, 1 - quantum * rate];
        return finding('rounded-or-lost', 'warning', { quantum, rate, other, share }, { value: share });
      }
      return finding('rounded-stamps', 'note', facts, { value: quantum });
    case 'even':
      if (repeated + backward === 0) return undefined;
      return finding('stamps-out-of-order', 'note', facts, { value: repeated + backward });
  }
}

/**
 * Whether stamps that are rounded to about the time between samples may as well be those of samples so far apart, some of which are
 * lost: even where these are lost one by one at even distances, the steps are the same. Nobody rounds but to a decimal place.
 */
function mayBeLosses(clock: StampClock): boolean {
  const { quantum, rate } = clock;
  const turns = quantum * rate;
  const place = log10Of(quantum);
  const isDecimal = Math.abs(place - Math.round(place)) < 1e-6;
  return !isDecimal && turns > settings.roundedGaps && turns < 1 - settings.uncertain && unsureBy(clock) === undefined;
}

/** Jumps back of the clock itself, as where it was set or two recordings were joined. */
export function resetFinding(clock: Clock, { resets }: StampClock, lineOf: Lines): Finding | undefined {
  if (resets === 0) return undefined;
  const line = lineOf(clock.stretches[1]?.from ?? 0);
  return finding('clock-reset', 'warning', { resets, line }, { value: resets });
}

/** A clock that stood still while rows went on. */
export function stoppedFinding({ held, rate }: StampClock, lineOf: Lines): Finding | undefined {
  if (held.rows === 0) return undefined;
  const line = lineOf(held.first);
  return finding('clock-stopped', 'fault', { rows: held.rows, line, rate }, { value: held.rows });
}
