import type { Finding } from '../../readers/recording.ts';
import type { Message } from '../../result/result.ts';
import { axesOf, type Signal } from '../../values/run.ts';
import { guard } from '../messages/verdict.ts';
import { findingsOn } from '../recordings/faults.ts';
import { isOfPeaks } from './metrics.ts';
import type { ComparisonTerms } from './request.ts';
import type { Side, Sides, Track } from './sides.ts';

// Faults of the recordings against a verdict. Only what is used can forbid one.

/** What was found on a run of a side and on the channels that are compared. @param index of the track */
export function findingsOf({ transfers }: Side, { run, channel }: Track, index: number): Finding[] {
  const from = transfers?.[index].from;
  return findingsOn(run, [...axesOf(channel).map(({ name }) => name), ...(from === undefined ? [] : [from])]);
}

/** The first fault that forbids a verdict in any band, as a clause; none of those that are judged band by band. */
export function faultGuards({ a, b }: Sides, terms: Pick<ComparisonTerms, 'metric'>): Message[] {
  const faults = [a, b].flatMap((side) =>
    side.tracks.flatMap((track, index) =>
      findingsOf(side, track, index)
        .filter((finding) => finding.severity === 'fault' && !isJudgedByBand(finding, side, track, terms))
        .map(({ code, channel }) => guard('guard.fault', { run: track.run.label, code, channel })),
    ),
  );
  return faults.slice(0, 1);
}

/**
 * Whether what a finding does to a band can be told: of coarse steps, and of clipping where it is no peak that is
 * compared, in the unit that was read.
 */
export function isJudgedByBand(
  { code, lost, channel }: Finding,
  { transfers }: Pick<Side, 'transfers'>,
  track: Track,
  { metric }: Pick<ComparisonTerms, 'metric'>,
): boolean {
  const signal = axesOf(track.channel).find(({ name }) => name === channel);
  if (signal === undefined || transfers !== undefined || !isAsWritten(signal)) return false;
  return code === 'resolution' || (code === 'clipped' && lost !== undefined && !isOfPeaks(metric));
}

/** Whether a signal still has the unit that its steps are known in. */
export const isAsWritten = ({ written, unit }: Signal): boolean => written?.unit === unit.symbol;
