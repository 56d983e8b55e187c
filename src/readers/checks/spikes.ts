import { median } from '../../signal/percentile.ts';
import { factsOf } from '../columnFacts.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { converterStep, measured, some, timeSpans, type Check } from './checked.ts';
import { spreadBound } from './spreadBound.ts';

/** Standard deviations of noise of a normal distribution in its median distance from the median. */
const deviations = 1.4826;

/** Whether samples may have a spike: mostly their extremes tell that they do not. */
function mayHave(samples: Float64Array): boolean {
  const { isWhole, low, high } = factsOf(samples);
  if (!isWhole || !(low < high)) return true;
  const { lowest, highest, distance } = spreadBound(some(samples), low, high);
  return !(Math.max(high - lowest, highest - low) <= settings.spike * deviations * distance);
}

/** Lone samples far from all others: a bad contact or a damaged transfer, not a bump, which lasts longer. */
export const spikes: Check = (run) =>
  measured(run).flatMap(({ samples, name, unit }) => {
    if (!mayHave(samples)) return [];
    const middle = median(some(samples));
    const distance = median(some(samples).map((value) => Math.abs(value - middle)));
    // A channel that hardly moves is judged by the steps of its converter.
    const spread = Math.max(deviations * distance, converterStep(samples));
    if (!(spread > 0)) return [];
    const most = settings.spike * spread;
    const found: { from: number; to: number }[] = [];
    for (const { from, to } of run.stretches) {
      for (let i = from; i < to; i++) {
        if (Math.abs(samples[i] - middle) <= most) continue;
        const before = i > from ? samples[i - 1] : middle;
        const after = i + 1 < to ? samples[i + 1] : middle;
        const beside = Math.max(Math.abs(before - middle), Math.abs(after - middle));
        if (beside < 0.5 * Math.abs(samples[i] - middle) && beside <= most) found.push({ from: i, to: i + 1 });
      }
    }
    if (found.length === 0) return [];
    const largest = found.reduce((size, { from }) => Math.max(size, Math.abs(samples[from] - middle)), 0);
    const facts = {
      channel: name,
      unit,
      count: found.length,
      deviations: settings.spike,
      limit: most,
      largest: largest / spread,
    };
    const basis = { value: largest / spread, threshold: settings.spike, channel: name, spans: timeSpans(run, found) };
    return [finding('spikes', 'warning', facts, basis)];
  });
