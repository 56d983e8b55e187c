import type { SpectrumValue } from '../../values/spectrum.ts';
import { refuse, type Failure } from '../../result/result.ts';

/** Why a spectrum has no frequencies to look for: its axis was divided by a speed. */
export function whyNoFrequencies({ axis }: SpectrumValue, at: string): { ok: false; failure: Failure } | undefined {
  if (axis === undefined) return undefined;
  return refuse(
    'spectrum.orders',
    `This spectrum is over ${axis.name}, not over frequency: take the spectrum it was made from.`,
    at,
  );
}
