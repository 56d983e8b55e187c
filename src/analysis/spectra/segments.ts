import type { Refused } from '../../result/result.ts';
import { longestOf, type Stretch } from '../../signal/stretch.ts';
import type { Run } from '../../values/run.ts';
import type { WindowValue } from '../../values/window.ts';
import { refuse, tell } from '../messages/spectra.ts';
import type { RunWarning } from '../together.ts';

/** Fewer samples than this make no spectrum. */
const fewestSamples = 4;

/** Samples of a segment: round(length x rate), so that the bin spacing is exactly rate / samples. */
export const segmentSamples = (run: Run, window: WindowValue): number => Math.round(window.length * run.rate);

/**
 * Why one of the runs can't be cut into segments of a window, or undefined where all can: it has too few samples in a
 * segment, or no unbroken stretch holds one.
 * @param runs the runs, in whose order they are looked at
 * @param at the operand or option that is to blame
 */
export function whyTooShort(runs: readonly Run[], window: WindowValue, at: string): Refused | undefined {
  const { length } = window;
  for (const run of runs) {
    const { label, rate, stretches } = run;
    const samples = segmentSamples(run, window);
    if (samples < fewestSamples) return refuse('window.long', { why: 'samples', length, samples, rate }, at);
    const longest = longestOf(stretches);
    if (longest < samples) {
      const gaps = stretches.length > 1;
      return refuse('window.long', { why: 'stretch', run: label, length, longest: longest / rate, gaps }, at);
    }
  }
  return undefined;
}

/**
 * Which samples stand in unbroken stretches that are too short to hold a segment of a window.
 * @param runs in whose order they are told of
 */
export const leftOutOf = (runs: readonly Run[], window: WindowValue): RunWarning[] =>
  runs.flatMap((run) => {
    const segment = segmentSamples(run, window);
    const short = shortStretches(run, 'segment', window.length, ({ from, to }) => to - from >= segment);
    return short.map((one) => ({ ...one, rank: 1 }));
  });

/**
 * The warning of what is left out of a run, where some of its stretches hold no segment or span; none where all do.
 * @param length of the segment or span in s
 */
export function shortStretches(
  { label: run, stretches }: Run,
  of: 'segment' | 'span',
  length: number,
  holds: (stretch: Stretch) => boolean,
): RunWarning[] {
  return shortIn({ label: run, stretches }, holds).map((facts) => {
    const code = 'window.short-stretches';
    return { code, of: run, tell: (others) => tell(code, { ...facts, length, of, others }) };
  });
}

/** Stretches of a run and samples in them that hold no span, beside all of its samples; none where all hold one. */
export function shortIn(
  { label: run, stretches }: Pick<Run, 'label' | 'stretches'>,
  holds: (stretch: Stretch) => boolean,
): { readonly run: string; readonly stretches: number; readonly samples: number; readonly all: number }[] {
  const short = stretches.filter((stretch) => !holds(stretch));
  if (short.length === 0) return [];
  return [{ run, stretches: short.length, samples: samplesIn(short), all: samplesIn(stretches) }];
}

const samplesIn = (stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, { from, to }) => sum + to - from, 0);
