import { bandRow } from '../../analysis/spectra/bands.ts';
import type { Refused, Side } from './sides.ts';
import { spectrumOf } from '../../analysis/spectra/spectrum.ts';
import type { Band } from '../../values/band.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import { refuse, type Warning } from '../../result/result.ts';
import type { Argument } from '../verb.ts';
import type { Watch } from '../../values/ports.ts';

/** A band's mean square should be so many times that of the logger at rest (error of the r.m.s. then below 5 %). */
const ratioWanted = 10;
/** Below this, more of the band is the logger's noise than vibration: it lies under the floor. */
const ratioForbidden = 2;

/** The spectrum of the logger at rest, on the side's channel and cut up as the side is. */
export function floorSpectrum(
  argument: Argument | undefined,
  side: Side,
  watch: Watch,
): SpectrumValue | Refused | undefined {
  if (argument?.type !== 'value') return undefined;
  const { value } = argument;
  if (value.kind !== 'runs' && value.kind !== 'spectrum') return undefined;
  const tracks =
    value.kind === 'spectrum'
      ? value.entries.map(({ run, channel }) => ({ run, channel }))
      : value.runs.flatMap((run) => run.channels.map((channel) => ({ run, channel })));
  const runs = tracks
    .filter(({ channel }) => channel.name === side.channel)
    .map(({ run, channel }) => ({ ...run, channels: [channel] }));
  if (runs.length === 0)
    return refuse(
      'floor.channel',
      `The recording at rest has no channel ${side.channel}: load it with all its axes.`,
      'above',
    );
  const unit = side.tracks[0].channel.unit;
  const other = runs.find(({ channels: [channel] }) => channel.unit.symbol !== unit.symbol);
  if (other !== undefined)
    return refuse(
      'floor.unit',
      `The recording at rest is in ${other.channels[0].unit.symbol} and the runs in ${unit.symbol}: load both in one unit.`,
      'above',
    );
  const found = spectrumOf({ set: 'floor', runs }, { window: side.window }, watch, 'above');
  return found.ok ? found.value : found;
}

/** Whether a band stands clear of the floor, as a warning and, where it does not at all, as a reason against a verdict. */
export function floorDoubts(
  band: Band,
  where: string,
  floor: SpectrumValue,
  entries: readonly SpectrumEntry[],
): { readonly warnings: readonly Warning[]; readonly guards: readonly string[] } {
  const still = Math.max(...floor.entries.map((entry) => bandRow(entry, band).rms));
  const least = entries.reduce((lowest, entry) =>
    bandRow(entry, band).rms < bandRow(lowest, band).rms ? entry : lowest,
  );
  const ratio = (bandRow(least, band).rms / still) ** 2;
  if (!(ratio < ratioWanted)) return { warnings: [], guards: [] };
  const times = ratio.toPrecision(2);
  const message = `${where}: the mean square of ${least.run.label} is only ${times} times that of the logger at rest, and ${ratioWanted} times are wanted.`;
  const under = `the band lies under the logger’s noise floor (${least.run.label} holds ${times} times the mean square of the logger at rest)`;
  return { warnings: [{ code: 'compare.floor', message }], guards: ratio < ratioForbidden ? [under] : [] };
}
