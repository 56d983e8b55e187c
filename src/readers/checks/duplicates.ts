import type { StampClock } from '../clock/clock.ts';
import type { Clock, Finding } from '../recording.ts';
import { figure } from '../refusal.ts';
import type { Lines } from './gaps.ts';

/** Stamps that repeat or run backwards, and what was made of them. */
export function deliveryFinding({ delivery, repeated, backward, quantum, rate }: StampClock): Finding | undefined {
  if (delivery === 'bursts') {
    return {
      code: 'bursts',
      severity: 'warning',
      message: `${repeated} stamps repeat the one before and ${backward} run backwards, as where samples are delivered in bursts: samples are taken as even at ${figure(rate)} Hz, the slope of the stamps.`,
      value: repeated + backward,
    };
  }
  if (delivery === 'coarse') {
    return {
      code: 'coarse-stamps',
      severity: 'note',
      message: `Stamps are in steps of ${figure(quantum)} s that several samples share: samples are taken as even at ${figure(rate)} Hz.`,
      value: quantum,
    };
  }
  if (delivery === 'rounded') {
    return {
      code: 'rounded-stamps',
      severity: 'note',
      message: `Stamps are rounded to ${figure(quantum)} s, which explains all of their unevenness.`,
      value: quantum,
    };
  }
  if (repeated + backward === 0) return undefined;
  return {
    code: 'stamps-out-of-order',
    severity: 'note',
    message: `${repeated} stamps repeat the one before and ${backward} run backwards; the order of the rows was kept.`,
    value: repeated + backward,
  };
}

/** Jumps back of the clock itself, as where it was set or two recordings were joined. */
export function resetFinding(clock: Clock, { resets }: StampClock, lineOf: Lines): Finding | undefined {
  if (resets === 0) return undefined;
  const line = lineOf(clock.stretches[1]?.from ?? 0);
  return {
    code: 'clock-reset',
    severity: 'warning',
    message: `The clock jumps back ${resets === 1 ? 'once' : `${resets} times`}${line === undefined ? '' : ` (first break at line ${line})`}: what follows is taken as a stretch of its own, of which nobody knows how much later it began.`,
    value: resets,
  };
}

/** A clock that stood still while rows went on. */
export function stoppedFinding({ held, rate }: StampClock, lineOf: Lines): Finding | undefined {
  if (held.rows === 0) return undefined;
  const line = lineOf(held.first);
  return {
    code: 'clock-stopped',
    severity: 'fault',
    message: `The clock stands still over ${held.rows} rows${line === undefined ? '' : ` (first from line ${line})`}, so that nobody can tell when they were sampled: they are taken as even at ${figure(rate)} Hz, or trim them off.`,
    value: held.rows,
  };
}
