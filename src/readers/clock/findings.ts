import { deliveryFinding, resetFinding, stoppedFinding } from '../checks/duplicates.ts';
import { gapFinding, type Lines } from '../checks/gaps.ts';
import { jitterFinding } from '../checks/jitter.ts';
import { rateFinding, uncertainRate } from '../checks/rate.ts';
import type { Clock, Finding } from '../recording.ts';
import type { StampClock } from './clock.ts';

/** What a careful reader would say of a clock: its rate, gaps, repeated and backward stamps, rounding and unevenness. */
export function clockFindings(
  clock: Clock,
  stamps: StampClock,
  stated: { readonly rate: number; readonly name: string } | undefined,
  lineOf: Lines,
): Finding[] {
  return present([
    clock.rateFrom === 'option'
      ? rateFinding(stamps.rate, { rate: clock.rate, name: 'the option rate' })
      : stated && rateFinding(stamps.rate, stated),
    clock.rateFrom === 'option' ? undefined : uncertainRate(stamps),
    gapFinding(clock, stamps, lineOf),
    deliveryFinding(stamps, clock.rateFrom === 'option'),
    jitterFinding(stamps),
    resetFinding(clock, stamps, lineOf),
    stoppedFinding(stamps, lineOf),
  ]);
}

/** What a count of the rows shows in place of stamps: gaps, where it began anew, where it stood still. */
export const countFindings = (clock: Clock, counted: StampClock, lineOf: Lines): Finding[] =>
  present([gapFinding(clock, counted, lineOf), resetFinding(clock, counted, lineOf), stoppedFinding(counted, lineOf)]);

const present = (findings: readonly (Finding | undefined)[]): Finding[] =>
  findings.filter((finding) => finding !== undefined);
