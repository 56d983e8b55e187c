import { success, type Result } from '../../result/result.ts';
import type { Density } from '../../signal/welch.ts';
import type { Channel, LongRun, Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { isLong, type Reach } from '../recordings/longRuns.ts';
import { mtvvSpan } from '../spectra/levels.ts';
import { longDensities } from '../spectra/longDensities.ts';
import { doseOf } from '../spectra/channelLevels.ts';
import { longLevels, type LongLevels } from '../spectra/longLevels.ts';
import { besideDensities } from './besideDensities.ts';
import { whyNoLevel } from './measure.ts';
import { isAsCut, restingTracks } from './noiseFloor.ts';
import type { ComparisonTerms, KnownOfTracks, SignalLevels } from './request.ts';
import { measuredIn, sideAt, type Sides, type Track } from './sides.ts';

/**
 * What a comparison needs of the tracks that are too large for memory, and densities of the others that are made in other threads,
 * as `spectrum` and `levels` give it: densities in
 * unit^2/Hz of sides that have no spectra yet and of the logger at rest, or levels where those are compared. A recording
 * of which several axes are compared is read for all of them together. Refuses runs that hold no segment, what has no
 * dose, and a file that is not as it was.
 * @param axes the sides, one entry an axis
 */
export async function knownOfLong(
  axes: readonly Sides[],
  { metric, ofSignal, floor }: ComparisonTerms,
  reach: Reach,
): Promise<Result<KnownOfTracks>> {
  const [first] = axes;
  const all = { densities: new Map<Channel, Density>(), levels: new Map<Channel, SignalLevels>() };
  for (const [index, side] of measuredIn(first).entries()) {
    const sides = axes.map((one) => measuredIn(one)[index]);
    const tracks = sides.flatMap((one) => one.tracks);
    const runs = together(tracks);
    if (!runs.runs.some(isLong)) {
      if (!ofSignal && side.spectrum === undefined && side.transfers === undefined)
        addTo(all.densities, await besideDensities(tracks, side.window, reach));
      continue;
    }
    const at = sideAt(first, side);
    if (ofSignal) {
      const found = whyNoLevel(side, metric, at) ?? (await longLevels(runs, mtvvSpan, reach));
      if (!found.ok) return found;
      addTo(all.levels, signalLevels(tracks, found.value));
    } else if (side.spectrum === undefined && side.transfers === undefined) {
      const found = await longDensities(runs, side.window, reach, at);
      if (!found.ok) return found;
      addTo(all.densities, found.value);
    }
  }
  if (floor === undefined || isAsCut(floor, first.a.window)) return success(all);
  const wanted = axes.map(({ a }) => a.channel);
  const resting = restingTracks(floor).filter(({ channel }) => wanted.includes(channel.name));
  const found = await longDensities(together(resting), first.a.window, reach, 'above');
  if (!found.ok) return found;
  addTo(all.densities, found.value);
  return success(all);
}

/** What is compared of the levels of tracks. */
function signalLevels(
  tracks: readonly Track[],
  found: ReadonlyMap<Channel, LongLevels>,
): ReadonlyMap<Channel, SignalLevels> {
  const all = new Map<Channel, SignalLevels>();
  for (const { run, channel } of tracks) {
    const own = found.get(channel);
    if (own === undefined) continue;
    const { rms, p99, p999 } = own.levels;
    all.set(channel, { rms, p99, p999, dose: doseOf(run, channel, own.moments), powers: [own.moments.m2] });
  }
  return all;
}

function addTo<T>(all: Map<Channel, T>, found: ReadonlyMap<Channel, T>): void {
  found.forEach((one, channel) => all.set(channel, one));
}

/** The runs of tracks, those of one stretch of a recording that is too large for memory as one. */
function together(tracks: readonly Track[]): Pick<RunsValue, 'runs'> {
  const found = new Map<Run | LongRun, Run>();
  for (const { run, channel } of tracks) {
    const of = run.long ?? run;
    const { channels } = found.get(of) ?? { channels: [] };
    found.set(of, { ...run, channels: [...channels, channel] });
  }
  return { runs: [...found.values()] };
}
