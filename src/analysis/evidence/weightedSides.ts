import { answered, type Answer } from '../../result/result.ts';
import { capitalised } from '../../result/words.ts';
import {
  weightable,
  weightedSignal,
  whyTooBroken,
  whyUnweightable,
  type WeightingName,
} from '../conditioning/weight.ts';
import { withSamples } from '../recordings/runs.ts';
import type { Run } from '../../values/run.ts';
import { together, type RunWarning } from '../together.ts';
import { isWeighting } from './metrics.ts';
import { mappedSides, type Side, type SideAt, type Sides, type Track } from './sides.ts';

/**
 * All sides with their tracks frequency-weighted where the metric is a weighting, else as they are. Refused of what is
 * no acceleration, weighted already or too broken; stretches too short for the weighting are left out, and told.
 */
export function weightedSides(sides: Sides, metric: string): Answer<Sides> {
  if (!isWeighting(metric)) return answered(sides);
  return mappedSides(sides, (side, at) => weightedSide(side, metric, at));
}

function weightedSide(side: Side, metric: WeightingName, at: SideAt): Answer<Side> {
  for (const { run, channel } of side.tracks) {
    const refusal = whyUnweightable(run.label, channel, at) ?? whyTooBroken(run, [metric], at);
    if (refusal !== undefined) return refusal;
  }
  const tracks: Track[] = [];
  const warnings: RunWarning[] = [];
  for (const { run, channel } of side.tracks) {
    const { run: done, warnings: more } = weightedRun({ ...run, channels: [channel] }, metric);
    warnings.push(...more);
    tracks.push({ run: done, channel: done.channels[0] });
  }
  return answered({ ...side, spectrum: undefined, tracks }, together(warnings));
}

/** A run with each signal weighted that can be, without the stretches that are too short for it, which are told. */
export function weightedRun(
  whole: Run,
  metric: WeightingName,
): { readonly run: Run; readonly warnings: readonly RunWarning[] } {
  const { run, warnings } = weightable(whole, [metric], 'compare');
  const step = `frequency-weighted ${capitalised(metric)}`;
  const done = withSamples(run, step, (signal) =>
    whyUnweightable(run.label, signal, 'a') === undefined ? weightedSignal(run, signal, metric) : signal,
  );
  return { run: done, warnings };
}
