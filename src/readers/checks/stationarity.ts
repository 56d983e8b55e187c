import type { Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { meanOf, meanSquare, measured, timeSpans, type Check, type CheckedRun } from './checked.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';

interface Block {
  readonly from: number;
  readonly to: number;
  /** Mean square of all axes together, each less its mean over the recording. */
  readonly power: number;
}

/** Whether the vibration is much the same throughout: blocks of 5 s, the loudest of them, and a trend over them. */
export const stationarity: Check = (run) => {
  const blocks = blocksOf(run, settings.blocks.length);
  if (blocks.length < settings.blocks.fewest) return [];
  return [...loudest(run, blocks), ...trend(blocks)];
};

/** Whole blocks of so many s, none across a gap. */
export function blocksOf(run: CheckedRun, seconds: number): Block[] {
  const axes = measured(run).filter(({ samples }) => samples.length > 0);
  const means = axes.map(({ samples }) => meanOf(samples));
  const length = Math.max(1, Math.round(seconds * run.rate));
  const blocks: Block[] = [];
  for (const { from, to } of run.stretches) {
    for (let start = from; start + length <= to; start += length) {
      const power = axes.reduce((sum, { samples }, k) => sum + meanSquare(samples, means[k], start, start + length), 0);
      blocks.push({ from: start, to: start + length, power });
    }
  }
  return blocks;
}

function loudest(run: CheckedRun, blocks: readonly Block[]): Finding[] {
  const total = blocks.reduce((sum, { power }) => sum + power, 0);
  const [quiet, loud] = blocks.reduce(
    ([a, b], one) => [one.power < a.power ? one : a, one.power > b.power ? one : b],
    [blocks[0], blocks[0]],
  );
  const { length, ratio, share: most, fair } = settings.blocks;
  const share = loud.power / total;
  const where = { spans: timeSpans(run, [loud]) };
  if (share > most && share * blocks.length > fair)
    return [finding('one-event', 'warning', { seconds: length, share }, { value: share, threshold: most, ...where })];
  const found = quiet.power > 0 ? loud.power / quiet.power : undefined;
  if (found !== undefined && found <= ratio) return [];
  const facts = { seconds: length, ratio: found };
  return [finding('not-stationary', 'warning', facts, { value: found, threshold: ratio, ...where })];
}

/** A line through ln rms over the blocks whose slope is far beyond its own error. */
function trend(blocks: readonly Block[]): Finding[] {
  const n = blocks.length;
  if (n < 6 || blocks.some(({ power }) => !(power > 0))) return [];
  const { slope, t } = lineThrough(blocks.map(({ power }) => 0.5 * logOf(power)));
  const change = expOf(slope * (n - 1)) - 1;
  if (!(Math.abs(t) > settings.blocks.trendT) || Math.abs(change) <= settings.blocks.trend) return [];
  return [finding('trend', 'warning', { change }, { value: change, threshold: settings.blocks.trend })];
}

/** Least-squares line through evenly spaced values: its slope a step, and the slope over its standard error. */
export function lineThrough(values: readonly number[]): { readonly slope: number; readonly t: number } {
  const n = values.length;
  const middle = (n - 1) / 2;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const bottom = values.reduce((sum, _, i) => sum + (i - middle) ** 2, 0);
  const slope = values.reduce((sum, value, i) => sum + (i - middle) * (value - mean), 0) / bottom;
  const rest = values.reduce((sum, value, i) => sum + (value - mean - slope * (i - middle)) ** 2, 0);
  return { slope, t: slope / Math.sqrt(rest / (n - 2) / bottom) };
}
