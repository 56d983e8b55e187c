import { success, type Result } from '../../result/result.ts';
import { capitalised } from '../../result/words.ts';
import { weightedSignal, whyUnweightable, type WeightingName } from '../conditioning/weight.ts';
import { withSamples } from '../recordings/runs.ts';
import { isWeighting } from './metrics.ts';
import type { Side, Sides, Track } from './sides.ts';

/**
 * Both sides with their tracks frequency-weighted where the metric is a weighting, else as they are. Refused of what is
 * no acceleration or weighted already.
 */
export function weightedSides(sides: Sides, metric: string): Result<Sides> {
  if (!isWeighting(metric)) return success(sides);
  const a = weightedSide(sides.a, metric, 'a');
  if (!a.ok) return a;
  const b = weightedSide(sides.b, metric, 'b');
  return b.ok ? success({ a: a.value, b: b.value }) : b;
}

function weightedSide(side: Side, metric: WeightingName, at: 'a' | 'b'): Result<Side> {
  for (const { run, channel } of side.tracks) {
    const refusal = whyUnweightable(run.label, channel, at);
    if (refusal !== undefined) return refusal;
  }
  return success({
    ...side,
    spectrum: undefined,
    tracks: side.tracks.map((track) => weightedTrack(track, metric)),
  });
}

function weightedTrack({ run, channel }: Track, metric: WeightingName): Track {
  const step = `frequency-weighted ${capitalised(metric)}`;
  const done = withSamples({ ...run, channels: [channel] }, step, (signal) => weightedSignal(run, signal, metric));
  return { run: done, channel: done.channels[0] };
}
