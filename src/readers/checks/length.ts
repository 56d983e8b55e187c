import { hopOf, segmentCount } from '../../signal/welch.ts';
import type { Finding } from '../recording.ts';
import { figure } from '../refusal.ts';
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
    const broken = run.stretches.length > 1 ? ` in its ${run.stretches.length} stretches between gaps` : '';
    const message = `The recording gives ${count} segments of ${figure(seconds)} s${broken}, fewer than ${averages}: record for longer, or take shorter segments if the lowest frequency allows it.`;
    findings.push({ code: 'short', severity: 'warning', message, value: count, threshold: averages });
  }
  if (low !== undefined && low > 0 && seconds < periods / low) {
    const message = `Segments of ${figure(seconds)} s hold ${figure(seconds * low)} periods of ${figure(low)} Hz, fewer than ${periods}: take segments of ${figure(periods / low)} s at least.`;
    findings.push({ code: 'segment-short', severity: 'warning', message, value: seconds * low, threshold: periods });
  }
  return findings;
};
