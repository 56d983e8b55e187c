import { transfer, type Pair } from '../../signal/transfer.ts';
import type { WelchOptions } from '../../signal/welch.ts';
import type { Run } from '../../values/run.ts';
import type { TransferEntry } from '../../values/transfer.ts';

/** Below this coherence a response is not to be read (engineering choice). */
export const leastCoherence = 0.5;

/** What a response goes from and to, as it is told, and its unit. */
export interface ResponseTerms extends Pick<TransferEntry, 'from' | 'to' | 'unit'> {
  /** What the plain ratio of samples is multiplied by to be in the unit. */
  readonly scale: number;
}

/** The frequency response of pairs that were sampled at the same moments (see `transfer`), in the response's unit. */
export function responseOf(
  run: Run,
  { from, to, unit, scale }: ResponseTerms,
  pairs: readonly Pair[],
  options: WelchOptions,
): Omit<TransferEntry, 'delay' | 'aligned'> {
  const found = transfer(pairs, options);
  return {
    ...{ run, from, to, unit, spacing: found.step, averages: found.averages },
    magnitude: found.h1.map((value) => value * scale),
    magnitudeH2: found.h2.map((value) => value * scale),
    phase: found.phase.map((value) => (value * 180) / Math.PI),
    coherence: found.coherence,
    randomError: found.error,
  };
}
