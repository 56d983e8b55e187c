import type { Stretch } from '../../signal/stretch.ts';

/** Samples that the gaps between stretches leave out, at a rate in Hz. */
export function missingSamples(stretches: readonly Stretch[], rate: number): number {
  let missing = 0;
  for (let s = 1; s < stretches.length; s++) {
    const before = stretches[s - 1];
    missing += Math.max(0, Math.round((stretches[s].start - before.start) * rate) - (before.to - before.from));
  }
  return missing;
}
