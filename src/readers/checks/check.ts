import type { Finding, Recording } from '../recording.ts';
import { worstFirst } from '../../result/severity.ts';
import { statedRange } from '../statedRange.ts';
import { aliasing } from './aliasing.ts';
import { band } from './band.ts';
import { sameChannels, sameGravity, sameLength, sameRate, sameRecording, sameStill } from './between.ts';
import { measured, type Check, type CheckedChannel, type CheckedRun, type Question } from './checked.ts';
import { clipping, mayBeClipped } from './clipping.ts';
import { drift } from './drift.ts';
import { flat, heldReadings, mayBeFlat } from './flat.ts';
import { gravity } from './gravity.ts';
import { length } from './length.ts';
import { sameLine } from './sameLine.ts';
import { mayBeTooSmall, resolution } from './resolution.ts';
import type { SeenRun, SetCheck, SetFinding } from './seen.ts';
import { spikes } from './spikes.ts';
import { stationarity } from './stationarity.ts';
import { mayWrap, wrapping } from './wrapping.ts';

const checks: readonly Check[] = [
  clipping,
  wrapping,
  flat,
  heldReadings,
  gravity,
  resolution,
  spikes,
  stationarity,
  drift,
  aliasing,
  band,
  length,
];
const setChecks: readonly SetCheck[] = [
  sameRecording,
  sameChannels,
  sameRate,
  sameLength,
  sameGravity,
  sameStill,
  sameLine,
];

/**
 * What a careful engineer would say of a recording's samples, the most serious first. What was found while reading it
 * (rate, gaps, unevenness, repeated stamps, empty cells) stands in the recording's own findings and is not repeated.
 */
export function checkRecording(run: CheckedRun, question: Question = {}): Finding[] {
  if (run.channels.length === 0 || run.channels[0].samples.length < 2) return [];
  return worstFirst(
    checks.flatMap((check) => check(run, question)),
    (finding) => finding,
  );
}

/** Checks that find faults of single channels, and which channels they may find one of: nearly none is, which bounds tell. */
const channelFaults: readonly (readonly [Check, (channel: CheckedChannel) => boolean])[] = [
  [clipping, mayBeClipped],
  [wrapping, mayWrap],
  [flat, mayBeFlat],
  [resolution, mayBeTooSmall],
];

/** The faults among what can be checked so quickly that it is done for every recording that is loaded or looked at. */
export function sampleFaults(run: CheckedRun): Finding[] {
  if ((run.channels[0]?.samples.length ?? 0) < 2) return [];
  const all = measured(run);
  const [clipped, wrapped, still, small] = channelFaults.map(([check, mayBeFault]) => {
    const channels = all.filter(mayBeFault);
    return channels.length === 0 ? [] : check({ ...run, channels }, {});
  });
  const found = [...clipped, ...wrapped, ...still, ...gravity(run, {}), ...small];
  return found.filter(({ severity }) => severity === 'fault');
}

/** What does not match between the runs of a set, the most serious first; nothing for a single run. */
export function checkSet(runs: readonly SeenRun[], question: Question = {}): SetFinding[] {
  if (runs.length < 2 || runs.some(({ samples }) => samples < 2)) return [];
  return worstFirst(
    setChecks.flatMap((check) => check(runs, question)),
    ({ finding }) => finding,
  );
}

/** A recording as the checks take it. */
export function checkedRun({ clock, channels, layout }: Recording): CheckedRun {
  const range = statedRange(layout.keys);
  return {
    rate: clock.rate,
    stretches: clock.stretches,
    times: clock.times,
    channels: channels.map((channel) => ({ ...channel, range })),
  };
}
