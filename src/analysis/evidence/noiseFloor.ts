import type { Result } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import type { Watch } from '../../values/ports.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import type { WindowValue } from '../../values/window.ts';
import { refuse, tell } from '../messages/evidence.ts';
import type { RatioInterval } from '../../statistics/estimate.ts';
import { guard } from '../messages/verdict.ts';
import { doesCount, mostOfIt, moveByNoise, type BandDoubts, type BandsOfRuns } from './bandDoubts.ts';
import { integratedFrom, tracksOf, whyOtherResultant, type Side, type Track } from './sides.ts';
import { bandRow } from '../spectra/bands.ts';
import type { KnownOfTracks } from './request.ts';
import { sideSpectrum } from './sideSpectrum.ts';
import { expm1Of } from '../../numbers/exponential.ts';

/** A band's mean square should be so many times that of the logger at rest (error of the r.m.s. then below 5 %). */
const ratioWanted = 10;

/**
 * The spectrum of the logger at rest, on the side's channel and cut up as the side is. Refused where it has no such
 * channel, another unit, a resultant of other axes, or a run too short for a segment.
 * @param known densities of what is not at hand
 */
export function floorSpectrum(
  rest: RunsValue | SpectrumValue,
  side: Side,
  watch: Watch,
  known?: KnownOfTracks,
): Result<SpectrumValue> {
  const tracks = restingTracks(rest).filter(({ channel }) => channel.name === side.channel);
  if (tracks.length === 0) return refuse('floor.channel', { channel: side.channel }, 'above');
  const { unit } = side.tracks[0].channel;
  const other = tracks.find(({ channel }) => channel.unit.symbol !== unit.symbol);
  if (other !== undefined)
    return refuse('floor.unit', { floor: other.channel.unit.symbol, runs: unit.symbol }, 'above');
  const unlike = whyOtherResultant([...side.tracks, ...tracks], 'above');
  if (unlike !== undefined) return unlike;
  const spectrum = isAsCut(rest, side.window) ? ofTracks(rest, tracks) : undefined;
  return sideSpectrum({ name: 'floor', spectrum, tracks, window: side.window }, watch, 'above', known);
}

/** Whether the logger at rest is a spectrum that stands as it is: cut by the window of the sides, or integrated, of which there are no samples. */
export const isAsCut = (
  rest: RunsValue | SpectrumValue,
  { shape, length, overlap }: WindowValue,
): rest is SpectrumValue =>
  rest.kind === 'spectrum' &&
  rest.axis === undefined &&
  ((rest.window.shape === shape && rest.window.length === length && rest.window.overlap === overlap) ||
    tracksOf(rest).some((track) => integratedFrom(track) !== undefined));

const ofTracks = (rest: SpectrumValue, tracks: readonly Track[]): SpectrumValue => ({
  ...rest,
  entries: rest.entries.filter((entry) =>
    tracks.some(({ run, channel }) => run === entry.run && channel === entry.channel),
  ),
});

/** Each run and channel of the logger at rest. */
export const restingTracks = (rest: RunsValue | SpectrumValue): Track[] =>
  rest.kind === 'spectrum'
    ? tracksOf(rest)
    : rest.runs.flatMap((run) => run.channels.map((channel) => ({ run, channel })));

/** The spectra of both sides' runs, and the interval of the change in the band; undefined where there is none. */
export interface AboveFloor {
  readonly a: readonly SpectrumEntry[];
  readonly b: readonly SpectrumEntry[];
  readonly interval: RatioInterval | undefined;
  readonly bandOf: BandsOfRuns;
}

/** Whether a band of every run stands clear of the logger at rest, and what its noise may do to the change. */
export function floorDoubts(band: Band, floor: SpectrumValue, { a, b, interval, bandOf }: AboveFloor): BandDoubts {
  const shareIn = (entry: SpectrumEntry, own: Band): number => {
    const still = Math.max(...floor.entries.map((one) => bandRow(one, own).rms));
    return (still / bandRow(entry, own).rms) ** 2;
  };
  const [sharesA, sharesB] = [
    a.map((entry, run) => shareIn(entry, bandOf.a(run))),
    b.map((entry, run) => shareIn(entry, bandOf.b(run))),
  ];
  const entries = [...a, ...b];
  const shares = [...sharesA, ...sharesB];
  const most = Math.max(...shares);
  const { label: run } = entries[shares.indexOf(most)].run;
  const warnings =
    most > 1 / ratioWanted ? [tell('compare.floor', { band, run, ratio: 1 / most, wanted: ratioWanted })] : [];
  if (most >= mostOfIt) return { warnings, guards: [guard('guard.floor', { run, ratio: 1 / most })] };
  const move = moveByNoise({ a: sharesA, b: sharesB });
  if (interval === undefined || !doesCount(move, interval)) return { warnings, guards: [] };
  const facts = { run, band, sharePercent: 100 * most, movePercent: 100 * expm1Of(move) };
  return { warnings, guards: [guard('guard.noise', facts)] };
}
