import { success, type Result } from '../../result/result.ts';
import { SpectrogramColumns, type Spectrogram } from '../../signal/spectrogram.ts';
import { windowShape } from '../../signal/windows.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { WindowValue } from '../../values/window.ts';
import { alongStretches, eachBlock, isLong, signalsIn, type LongerRun, type Reach } from '../recordings/longRuns.ts';
import { segmentSamples, whyTooShort } from './segments.ts';

/**
 * Spectrograms of the channels of those runs that are too large for memory, densities in unit^2/Hz. Refuses runs that hold
 * no segment, and a file that is not as it was.
 * @param runs of which the others are passed over
 * @param columns most that are wanted
 */
export async function longSpectrograms(
  runs: RunsValue,
  window: WindowValue,
  reach: Reach,
  columns: number,
): Promise<Result<ReadonlyMap<Channel, Spectrogram>>> {
  const found = new Map<Channel, Spectrogram>();
  const long = runs.runs.filter(isLong);
  const refusal = long.length === 0 ? undefined : whyTooShort(runs.runs, window, 'using');
  if (refusal !== undefined) return refusal;
  for (const run of long) {
    const made = await columnsOf(run, window, reach, columns);
    if (!made.ok) return made;
    signalsIn(run).forEach((channel, k) => found.set(channel, made.value[k].found));
  }
  return success(found);
}

async function columnsOf(
  run: LongerRun,
  window: WindowValue,
  reach: Reach,
  columns: number,
): Promise<Result<SpectrogramColumns[]>> {
  const shape = windowShape(window.shape, segmentSamples(run, window));
  const options = { shape, rate: run.rate, overlap: window.overlap, cancelled: reach.watch.cancelled, columns };
  const lengths = run.stretches.map(({ from, to, start }) => ({ length: to - from, start }));
  const made = signalsIn(run).map(() => new SpectrogramColumns(lengths, options));
  const refused = await eachBlock(run, reach, `spectrogram of ${run.label}`, (block) => {
    for (const { signals, ends } of alongStretches(run.stretches, block))
      made.forEach((one, k) => {
        one.add(signals[k]);
        if (ends) one.end();
      });
  });
  return refused ?? success(made);
}
