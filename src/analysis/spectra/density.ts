import type { Refused } from '../../result/result.ts';
import type { Density } from '../../signal/welch.ts';
import type { Channel } from '../../values/run.ts';
import type { Band } from '../../values/band.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';
import { refuse } from '../messages/spectra.ts';

/** How far up and down a spectrum reaches. */
export interface SpectrumReach extends Pick<SpectrumEntry, 'run' | 'spacing' | 'segmentSamples'> {
  readonly channel?: Pick<Channel, 'lowCut' | 'highpass'>;
}

/** Half the rate in Hz: the upper end of a spectrum. */
export const halfRate = ({ spacing, segmentSamples }: SpectrumReach): number => (spacing * segmentSamples) / 2;

/** Whether a frequency in Hz lies above a spectrum, past rounding. */
export const isPast = (frequency: number, of: SpectrumReach): boolean => frequency > halfRate(of) * (1 + 1e-9);

/** Whether a frequency in Hz lies below the cut of what was integrated, past rounding. */
const isBelowCut = (frequency: number, { channel }: SpectrumReach): boolean =>
  frequency < (channel?.lowCut ?? 0) * (1 - 1e-9);

/**
 * Why a band can't be taken where it begins below the cut of what was integrated; otherwise undefined.
 * @param spectra what it is to be taken of, with their channels
 * @param at the operand or option that is to blame
 */
export function whyBelowCut({ from, to }: Band, spectra: readonly SpectrumReach[], at: string): Refused | undefined {
  const cut = spectra.find((one) => isBelowCut(from, one));
  if (cut === undefined) return undefined;
  const { lowCut = 0, highpass = 0 } = cut.channel ?? {};
  return refuse('band.below-cut', { from, to, run: cut.run.label, lowCut, filtered: highpass >= lowCut }, at);
}

/** An entry's density in the form that `signal` takes, in unit^2/Hz over bins one `step` in Hz apart. */
export const densityOf = (entry: SpectrumEntry): Density => ({
  density: entry.density,
  step: entry.spacing,
  segmentLength: entry.segmentSamples,
  rate: entry.run.rate,
  segments: entry.segments,
  averages: entry.averages,
  noiseBandwidth: entry.noiseBandwidth,
});
