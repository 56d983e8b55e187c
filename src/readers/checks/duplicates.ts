import type { StampClock } from '../clock/clock.ts';
import type { Clock, Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import type { Lines } from './gaps.ts';

/** Stamps that repeat or run backwards, and what was made of them. */
export function deliveryFinding({
  delivery,
  repeated,
  backward,
  quantum,
  rate,
  each,
}: StampClock): Finding | undefined {
  const facts = { repeated, backward, quantum, rate, each };
  switch (delivery) {
    case 'bursts':
      return finding('bursts', 'warning', facts, { value: repeated + backward });
    case 'coarse':
      return finding('coarse-stamps', 'note', facts, { value: quantum });
    case 'rounded':
      return finding('rounded-stamps', 'note', facts, { value: quantum });
    case 'even':
      if (repeated + backward === 0) return undefined;
      return finding('stamps-out-of-order', 'note', facts, { value: repeated + backward });
  }
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
