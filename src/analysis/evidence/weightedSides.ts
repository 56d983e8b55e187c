import { capitalised } from '../../result/words.ts';
import { success, type Result } from '../../result/result.ts';
import { piecesOf } from '../../signal/stretch.ts';
import { weighted, type WeightingName } from '../../signal/weighting.ts';
import { refuse } from '../messages/evidence.ts';
import { isAcceleration } from '../recordings/dimensions.ts';
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

function weightedSide(side: Side, metric: WeightingName, at: string): Result<Side> {
  const wrong = side.tracks.find(({ channel }) => channel.weighting !== undefined || !isAcceleration(channel.unit));
  if (wrong !== undefined) {
    const { name, unit, weighting } = wrong.channel;
    return refuse('weight.unit', { channel: name, run: wrong.run.label, unit: unit.symbol, weighting }, at);
  }
  return success({
    ...side,
    spectrum: undefined,
    tracks: side.tracks.map((track) => weightedTrack(track, metric)),
  });
}

function weightedTrack({ run, channel }: Track, metric: WeightingName): Track {
  const into = new Float64Array(channel.samples.length);
  const from = piecesOf(channel.samples, run.stretches);
  piecesOf(into, run.stretches).forEach((piece, s) => weighted(metric, from[s], run.rate, piece));
  const done = withSamples({ ...run, channels: [channel] }, `frequency-weighted ${capitalised(metric)}`, () => ({
    samples: into,
    includesStatic: false,
    weighting: capitalised(metric),
  }));
  return { run: done, channel: done.channels[0] };
}
