import type { Message, Result, Warning } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import type { Watch } from '../../values/ports.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import { refuse, tell } from '../messages/evidence.ts';
import { guard } from '../messages/verdict.ts';
import { tracksOf, whyOtherResultant, type Side, type Track } from './sides.ts';
import { bandRow } from '../spectra/bands.ts';
import { sideSpectrum } from './sideSpectrum.ts';

/** A band's mean square should be so many times that of the logger at rest (error of the r.m.s. then below 5 %). */
const ratioWanted = 10;
/** Below this, more of the band is the logger's noise than vibration: it lies under the floor. */
const ratioForbidden = 2;

/**
 * The spectrum of the logger at rest, on the side's channel and cut up as the side is. Refused where it has no such
 * channel, another unit, a resultant of other axes, or a run too short for a segment.
 */
export function floorSpectrum(rest: RunsValue | SpectrumValue, side: Side, watch: Watch): Result<SpectrumValue> {
  const tracks = restingTracks(rest).filter(({ channel }) => channel.name === side.channel);
  if (tracks.length === 0) return refuse('floor.channel', { channel: side.channel }, 'above');
  const { unit } = side.tracks[0].channel;
  const other = tracks.find(({ channel }) => channel.unit.symbol !== unit.symbol);
  if (other !== undefined)
    return refuse('floor.unit', { floor: other.channel.unit.symbol, runs: unit.symbol }, 'above');
  const unlike = whyOtherResultant([...side.tracks, ...tracks], 'above');
  if (unlike !== undefined) return unlike;
  return sideSpectrum({ name: 'floor', spectrum: undefined, tracks, window: side.window }, watch, 'above');
}

const restingTracks = (rest: RunsValue | SpectrumValue): Track[] =>
  rest.kind === 'spectrum'
    ? tracksOf(rest)
    : rest.runs.flatMap((run) => run.channels.map((channel) => ({ run, channel })));

/** How a band stands to the floor. */
export interface FloorDoubts {
  readonly warnings: readonly Warning[];
  /** A reason against a verdict, as a clause, where the band does not stand clear of the floor at all. */
  readonly guards: readonly Message[];
}

/** Whether a band of every run stands clear of the logger at rest. @param entries spectra of all runs of both sides */
export function floorDoubts(band: Band, floor: SpectrumValue, entries: readonly SpectrumEntry[]): FloorDoubts {
  const still = Math.max(...floor.entries.map((entry) => bandRow(entry, band).rms));
  const least = entries.reduce((lowest, entry) =>
    bandRow(entry, band).rms < bandRow(lowest, band).rms ? entry : lowest,
  );
  const ratio = (bandRow(least, band).rms / still) ** 2;
  if (!(ratio < ratioWanted)) return { warnings: [], guards: [] };
  const run = least.run.label;
  return {
    warnings: [tell('compare.floor', { band, run, ratio, wanted: ratioWanted })],
    guards: ratio < ratioForbidden ? [guard('guard.floor', { run, ratio })] : [],
  };
}
