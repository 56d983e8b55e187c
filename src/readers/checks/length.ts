import { hopOf, segmentCount } from '../../signal/welch.ts';
import type { Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import type { Check } from './checked.ts';

/** Whether the recording is long enough for its segments, and the segments for the lowest frequency asked about. */
export const length: Check = (run, { low, segment }) => {
  const { periods, averages, segment: usual } = settings.band;
  const seconds = segment ?? usual;
  const samples = Math.max(2, Math.round(seconds * run.rate));
  const count = run.stretches.reduce(
    (sum, { from, to }) => sum + segmentCount(to - from, samples, hopOf(samples, 0.5)),
    0,
  );
  const findings: Finding[] = [];
  if (count < averages) {
    const facts = { segments: count, seconds, stretches: run.stretches.length, fewest: averages };
    findings.push(finding('short', 'warning', facts, { value: count, threshold: averages }));
  }
  if (low !== undefined && low > 0 && seconds < periods / low) {
    const basis = { value: seconds * low, threshold: periods };
    findings.push(finding('segment-short', 'warning', { seconds, low, fewest: periods }, basis));
  }
  return findings;
};
