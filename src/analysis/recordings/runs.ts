import type { Stretch } from '../../readers/recording.ts';
import { piecesOf } from '../../signal/stretch.ts';
import { changed } from '../../values/resultant.ts';
import type { Run, Signal } from '../../values/run.ts';

/** The shortest of a run's unbroken stretches. */
export const shortestStretch = ({ stretches }: Run): Stretch =>
  stretches.reduce((least, one) => (one.to - one.from < least.to - least.from ? one : least));

/** Views of a signal's unbroken pieces. */
export const pieces = (run: Run, { samples }: Signal): Float64Array[] => piecesOf(samples, run.stretches);

/**
 * A run with other samples in its signals, those of a resultant's axes included, and the step that made them written
 * into its history. The recording it was trimmed from is left behind: its samples are not of the same kind any more.
 */
export function withSamples(
  { untrimmed: _whole, ...run }: Run,
  step: string,
  change: (signal: Signal) => Partial<Signal> & { readonly samples: Float64Array },
): Run {
  return {
    ...run,
    channels: run.channels.map((channel) => changed(channel, (signal) => ({ ...signal, ...change(signal) }))),
    history: [...run.history, step],
  };
}
