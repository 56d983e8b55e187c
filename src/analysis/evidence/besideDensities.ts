import { summedDensity } from '../../signal/resultant.ts';
import type { Density } from '../../signal/welch.ts';
import { sharedWindow } from '../../signal/windows.ts';
import type { WantedDensity } from '../../values/ports.ts';
import { axesOf, sampleCount, type Channel, type Run } from '../../values/run.ts';
import type { WindowValue } from '../../values/window.ts';
import { isLong, type Reach } from '../recordings/longRuns.ts';
import { pieces } from '../recordings/runs.ts';
import { segmentSamples, whyTooShort } from '../spectra/segments.ts';
import type { Track } from './sides.ts';

/** Samples of all tracks together from which it is worth the messages to have their densities made in other threads. */
const worthThreads = 1e6;

/**
 * Densities of tracks in unit^2/Hz as `spectrum` makes them, made several at a time where the host has threads for that;
 * none where it has not, there is little to do, or some run can't be cut into segments, which is then told where the
 * densities are made here.
 */
export async function besideDensities(
  tracks: readonly Track[],
  window: WindowValue,
  { files, watch }: Reach,
): Promise<ReadonlyMap<Channel, Density>> {
  const found = new Map<Channel, Density>();
  const runs = tracks.map(({ run }) => run);
  const samples = runs.reduce((sum, run) => sum + sampleCount(run), 0);
  const isPlain = !runs.some((run) => isLong(run) || run.stamps !== undefined);
  if (files.densities === undefined || samples < worthThreads || !isPlain) return found;
  if (whyTooShort(runs, window, 'using') !== undefined) return found;
  const wanted = tracks.map(({ run, channel }) => wantedOf(run, channel, window));
  const made = [...(await files.densities(wanted.flat(), watch))];
  for (const [k, { channel }] of tracks.entries()) {
    const own = made.splice(0, wanted[k].length).filter((one) => one !== undefined);
    if (own.length === wanted[k].length) found.set(channel, summedDensity(own));
  }
  return found;
}

function wantedOf(run: Run, channel: Channel, window: WindowValue): WantedDensity[] {
  const shape = sharedWindow(window.shape, segmentSamples(run, window));
  const options = { shape, rate: run.rate, overlap: window.overlap };
  return axesOf(channel).map((axis) => ({ pieces: pieces(run, axis), options }));
}
