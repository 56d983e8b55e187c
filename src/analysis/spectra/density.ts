import type { Density } from '../../signal/welch.ts';
import type { Channel } from '../../values/run.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';

/** How far up and down a spectrum reaches. */
export interface SpectrumReach extends Pick<SpectrumEntry, 'run' | 'spacing' | 'segmentSamples'> {
  readonly channel?: Pick<Channel, 'lowCut'>;
}

/** Half the rate in Hz: the upper end of a spectrum. */
export const halfRate = ({ spacing, segmentSamples }: SpectrumReach): number => (spacing * segmentSamples) / 2;

/** Whether a frequency in Hz lies above a spectrum, past rounding. */
export const isPast = (frequency: number, of: SpectrumReach): boolean => frequency > halfRate(of) * (1 + 1e-9);

/** Whether a frequency in Hz lies below the cut of what was integrated, past rounding. */
export const isBelowCut = (frequency: number, { channel }: SpectrumReach): boolean =>
  frequency < (channel?.lowCut ?? 0) * (1 - 1e-9);

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
