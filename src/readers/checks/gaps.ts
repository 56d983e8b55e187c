import type { StampClock } from '../clock/clock.ts';
import { gapsBetween, type Gap } from '../../signal/stretch.ts';
import type { Clock, Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';

/** The line of a row of the file, where it is known. */
export type Lines = (row: number) => number | undefined;

/** Where samples are missing, and how many. */
export function gapFinding(
  clock: Pick<Clock, 'stretches' | 'rate' | 'times'>,
  stamps: Pick<StampClock, 'missing'>,
  lineOf: Lines,
): Finding | undefined {
  const gaps = gapsOf(clock);
  if (gaps.length === 0) return undefined;
  const samples = clock.stretches.reduce((sum, { from, to }) => sum + to - from, 0);
  const share = stamps.missing / (samples + stamps.missing);
  const [first] = gaps;
  const line = lineOf(first.row);
  const longest = gaps.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  const facts = { gaps: gaps.length, missing: stamps.missing, share, first: first.from, line, longest };
  return finding('gap', share > settings.missing ? 'warning' : 'note', facts, {
    value: share,
    threshold: settings.missing,
    spans: gaps.map(({ from, to }) => ({ from, to })),
  });
}

/** The gaps of a clock, as every count of them has it. */
export const gapsOf = ({ stretches, rate, times }: Pick<Clock, 'stretches' | 'rate' | 'times'>): Gap[] =>
  gapsBetween(stretches, rate, times);
