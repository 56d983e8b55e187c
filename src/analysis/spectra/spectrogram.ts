import { answered, type Answer } from '../../result/result.ts';
import { summed } from '../../signal/resultant.ts';
import { spectrogram, type Spectrogram } from '../../signal/spectrogram.ts';
import { windowShape } from '../../signal/windows.ts';
import { densityUnit } from '../../units/parse.ts';
import type { Watch } from '../../values/ports.ts';
import { axesOf, type Channel, type Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrogramEntry, SpectrogramValue } from '../../values/spectrogram.ts';
import type { WindowValue } from '../../values/window.ts';
import { pieces } from '../recordings/runs.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { together } from '../together.ts';
import { leftOutOf, segmentSamples, whyTooShort } from './segments.ts';

/** Beyond this neighbouring segments are averaged: no screen shows more columns. */
export const mostColumns = 1000;

/**
 * The densities of the segments of every run and channel over time: one-sided, in unit^2/Hz, a column a segment or a
 * mean of neighbouring ones. Refuses runs too uneven to be brought to a uniform rate, and runs that hold no segment.
 * @param known spectrograms that were made before, of runs that are too large for memory
 */
export function spectrogramOf(
  asked: RunsValue,
  window: WindowValue,
  watch: Watch,
  known: ReadonlyMap<Channel, Spectrogram> = new Map(),
): Answer<SpectrogramValue> {
  const even = evenly(asked, 'spectrogram');
  if (!even.ok) return even;
  const runs = even.value;
  const refusal = whyTooShort(runs.runs, window, 'using');
  if (refusal !== undefined) return refusal;
  const entries: SpectrogramEntry[] = [];
  for (const run of runs.runs) {
    watch.progress(entries.length / runs.runs.length, `spectrogram of ${run.label}`);
    const shape = windowShape(window.shape, segmentSamples(run, window));
    for (const channel of run.channels) {
      const before = known.get(channel);
      const each = before === undefined ? spectrogramsOf(run, channel, shape, window.overlap, watch) : [before];
      entries.push(entryOf(run, channel, each));
    }
  }
  return answered({ kind: 'spectrogram', set: runs.set, window, entries }, [
    ...even.warnings,
    ...together(leftOutOf(runs.runs, window)),
  ]);
}

/** One for each axis of a channel. */
function spectrogramsOf(
  run: Run,
  channel: Channel,
  shape: Float64Array,
  overlap: number,
  { cancelled }: Watch,
): Spectrogram[] {
  return axesOf(channel).map((axis) => {
    const stretches = pieces(run, axis).map((samples, s) => ({ samples, start: run.stretches[s].start }));
    return spectrogram(stretches, { shape, rate: run.rate, overlap, cancelled, columns: mostColumns });
  });
}

function entryOf(run: Run, channel: Channel, each: readonly Spectrogram[]): SpectrogramEntry {
  const [found] = each;
  return {
    run,
    channel,
    unit: densityUnit(channel.unit),
    spacing: found.step,
    bins: found.bins,
    times: found.times,
    density: summed(each.map(({ density }) => density)),
    ...(found.perColumn > 1 ? { perColumn: found.perColumn } : {}),
  };
}
