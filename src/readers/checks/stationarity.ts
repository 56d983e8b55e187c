import type { Finding } from '../recording.ts';
import { figure, percent } from '../refusal.ts';
import { settings } from '../settings.ts';
import { meanOf, meanSquare, measured, places, type Check, type CheckedRun } from './checked.ts';

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
  const found = { channel: undefined, places: places(run, [loud]) };
  if (share > most && share * blocks.length > fair) {
    const message = `One stretch of ${length} s holds ${percent(share)} of the mean square of the whole recording, so one event dominates every average: trim it off, or give it a test of its own.`;
    return [{ code: 'one-event', severity: 'warning', message, value: share, threshold: most, ...found }];
  }
  if (quiet.power > 0 && loud.power / quiet.power <= ratio) return [];
  const factor = quiet.power > 0 ? `${figure(loud.power / quiet.power)} times` : 'without measure above';
  const message = `The level changes along the recording: the mean square of the loudest ${length} s is ${factor} that of the quietest: trim the start and the stop off, or compare parts of one kind.`;
  return [
    {
      code: 'not-stationary',
      severity: 'warning',
      message,
      value: quiet.power > 0 ? loud.power / quiet.power : undefined,
      threshold: ratio,
      ...found,
    },
  ];
}

/** A line through ln rms over the blocks whose slope is far beyond its own error. */
function trend(blocks: readonly Block[]): Finding[] {
  const n = blocks.length;
  if (n < 6 || blocks.some(({ power }) => !(power > 0))) return [];
  const { slope, t } = lineThrough(blocks.map(({ power }) => 0.5 * Math.log(power)));
  const change = Math.exp(slope * (n - 1)) - 1;
  if (!(Math.abs(t) > settings.blocks.trendT) || Math.abs(change) <= settings.blocks.trend) return [];
  const message = `The rms ${change > 0 ? 'rises' : 'falls'} by ${percent(Math.abs(change))} from start to end of the recording: was the speed, the surface or the load changing?`;
  return [{ code: 'trend', severity: 'warning', message, value: change, threshold: settings.blocks.trend }];
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
