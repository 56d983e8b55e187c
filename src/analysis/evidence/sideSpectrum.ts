import { success, type Result } from '../../result/result.ts';
import type { Watch } from '../../values/ports.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { spectrumOf } from '../spectra/spectrum.ts';
import type { KnownOfTracks } from './request.ts';
import type { Side, SideAt } from './sides.ts';

/**
 * The densities of a side's tracks, made now where none were given. Refuses runs that hold no segment of its window.
 * @param known densities of what is not at hand
 */
export function sideSpectrum(
  { name, spectrum, tracks, window }: Pick<Side, 'name' | 'spectrum' | 'tracks' | 'window'>,
  watch: Watch,
  at: SideAt | 'above',
  known?: KnownOfTracks,
): Result<SpectrumValue> {
  if (spectrum !== undefined) return success(spectrum);
  const runs = tracks.map(({ run, channel }) => ({ ...run, channels: [channel] }));
  return spectrumOf({ set: name, runs }, { window }, watch, at, known?.densities);
}
