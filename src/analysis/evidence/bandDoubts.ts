import type { Message, Warning } from '../../result/result.ts';
import type { Levels } from '../../statistics/comparison.ts';
import type { RatioInterval } from '../../statistics/estimate.ts';
import type { Band } from '../../values/band.ts';
import { axesOf, extent, type Signal } from '../../values/run.ts';
import { tell } from '../messages/evidence.ts';
import { guard } from '../messages/verdict.ts';
import { powersOf } from '../spectra/channelLevels.ts';
import { findingsOf, isAsWritten, isJudgedByBand } from './faultGuards.ts';
import { isOfPeaks } from './metrics.ts';
import type { ComparisonTerms, KnownOfTracks } from './request.ts';
import type { Side, Sides, Track } from './sides.ts';
import { expm1Of } from '../../numbers/exponential.ts';
import { log1pOf, logOf } from '../../numbers/logarithm.ts';

/**
 * What may move a change counts where it could move it by a fifth of half the interval's width or more: below that, an interval of 95 %
 * still holds in 93 of 100 (an interval of 1.96 standard errors whose middle is 0.39 of them off).
 */
const shareThatCounts = 0.2;

/** A share of the band's power from which little else was measured. */
export const mostOfIt = 0.5;

/** Reasons against a verdict in a band, as clauses; and what a reader must know of what is none. */
export interface BandDoubts {
  readonly warnings: readonly Warning[];
  readonly guards: readonly Message[];
}

/** One band of both sides, its level in each run, and the interval of the change. */
export interface BandInQuestion {
  /** Undefined of a level of the whole signal. */
  readonly band: Band | undefined;
  readonly levels: Levels;
  /** Undefined where nothing is inferred, so that nothing has to be withheld. */
  readonly interval: RatioInterval | undefined;
  /** The band of each run, which of a line is its own. */
  readonly bandOf: BandsOfRuns;
}

/** Of the runs of either side, by their indices. */
export type BandsOfRuns = Readonly<Record<'a' | 'b', (run: number) => Band>>;

/** Whether what could move ln(B/A) by so much counts beside its interval. */
export const doesCount = (move: number, { low, high }: RatioInterval): boolean =>
  move >= (shareThatCounts * logOf(high / low)) / 2;

/**
 * By how much noise of a known size moves ln(B/A): what it does to both sides alike is no difference. Infinity where noise is most of
 * the power of a run.
 *
 * @param shares of each run's power in the band, 0 to 1
 */
export function moveByNoise({ a, b }: Levels): number {
  if ([...a, ...b].some((share) => share >= mostOfIt)) return Infinity;
  const excess = (shares: readonly number[]): number =>
    -shares.reduce((sum, share) => sum + log1pOf(-share), 0) / (2 * shares.length);
  return Math.abs(excess(b) - excess(a));
}

/** What rounding and clipping do to a band. */
export function bandDoubts(
  sides: Sides,
  { metric, known }: Pick<ComparisonTerms, 'metric' | 'known'>,
  asked: BandInQuestion,
): BandDoubts {
  const found = [roundingDoubt(sides, metric, asked, known), clippingDoubt(sides, metric, asked)];
  return {
    warnings: found.flatMap(({ warnings }) => warnings),
    guards: found.flatMap(({ guards }) => guards),
  };
}

const nothing: BandDoubts = { warnings: [], guards: [] };

/** One run of a side with its level and what was found for it. */
interface Figure {
  readonly side: Side;
  readonly track: Track;
  readonly index: number;
  readonly level: number;
}

function figuresOf({ a, b }: Sides, levels: Levels): Record<'a' | 'b', Figure[]> {
  const of = (side: Side, each: readonly number[]): Figure[] =>
    side.tracks.map((track, index) => ({ side, track, index, level: each[index] }));
  return { a: of(a, levels.a), b: of(b, levels.b) };
}

/** The largest of some shares and the run that has it. */
function worst(figures: readonly Figure[], shares: readonly number[]): { readonly of: Figure; readonly share: number } {
  const share = Math.max(...shares);
  return { of: figures[shares.indexOf(share)], share };
}

/** Rounding to steps of q adds noise of q^2/12, spread evenly up to half the rate. */
function roundingDoubt(
  sides: Sides,
  metric: string,
  { band, levels, interval, bandOf }: BandInQuestion,
  known?: KnownOfTracks,
): BandDoubts {
  if (interval === undefined || sides.a.transfers !== undefined) return nothing;
  const figures = figuresOf(sides, levels);
  const share =
    (of: BandsOfRuns['a']) =>
    ({ track, level, index }: Figure): number =>
      roundingPower(track, band && of(index)) / (isOfPeaks(metric) ? powerOf(track, known) : level ** 2);
  const shares = { a: figures.a.map(share(bandOf.a)), b: figures.b.map(share(bandOf.b)) };
  const move = moveByNoise(shares);
  const most = worst([...figures.a, ...figures.b], [...shares.a, ...shares.b]);
  const { run, channel } = most.of.track;
  const signal = coarsest(axesOf(channel));
  const facts = {
    ...{ run: run.label, channel: signal.name, band, step: signal.written?.step ?? 0, unit: signal.unit.symbol },
    sharePercent: 100 * most.share,
  };
  if (doesCount(move, interval))
    return { warnings: [], guards: [guard('guard.rounding', { ...facts, movePercent: inPercent(move) })] };
  return { warnings: hasFault(most.of, 'resolution') ? [tell('compare.rounding', facts)] : [], guards: [] };
}

const coarsest = (axes: readonly Signal[]): Signal =>
  axes.reduce((most, one) => ((one.written?.step ?? 0) > (most.written?.step ?? 0) ? one : most));

function roundingPower({ run: { rate }, channel }: Track, band: Band | undefined): number {
  const part = band === undefined ? 1 : (Math.min(band.to, rate / 2) - band.from) / (rate / 2);
  return axesOf(channel).reduce(
    (sum, signal) => sum + (isAsWritten(signal) ? (part * (signal.written?.step ?? 0) ** 2) / 12 : 0),
    0,
  );
}

/** Mean square of a track about its mean. */
function powerOf({ channel }: Track, known?: KnownOfTracks): number {
  const powers = known?.levels.get(channel)?.powers ?? powersOf(channel);
  return powers.reduce((sum, power) => sum + power, 0);
}

/**
 * What was cut off can change a band's r.m.s. by no more than its own (triangle inequality); it is taken as if all of it
 * lay in the band, and as if it worked the other way on the other side.
 */
function clippingDoubt(sides: Sides, metric: string, { band, levels, interval }: BandInQuestion): BandDoubts {
  if (interval === undefined) return nothing;
  const figures = figuresOf(sides, levels);
  const share = (one: Figure): number => lostRms(one, metric) / one.level;
  const [a, b] = [figures.a, figures.b].map((side) => side.map(share));
  const most = worst([...figures.a, ...figures.b], [...a, ...b]);
  if (most.share === 0) return nothing;
  const mean = (shares: readonly number[]): number => shares.reduce((sum, one) => sum + one, 0) / shares.length;
  const move = mean(a) + mean(b);
  const { run, channel } = most.of.track;
  const facts = { run: run.label, channel: channel.name, band, sharePercent: 100 * most.share };
  if (doesCount(move, interval))
    return { warnings: [], guards: [guard('guard.clipped', { ...facts, movePercent: inPercent(move) })] };
  return { warnings: hasFault(most.of, 'clipped') ? [tell('compare.clipped', facts)] : [], guards: [] };
}

function lostRms({ side, track, index }: Figure, metric: string): number {
  const lost = findingsOf(side, track, index)
    .filter((finding) => finding.code === 'clipped' && isJudgedByBand(finding, side, track, { metric }))
    .reduce((sum, finding) => sum + (finding.lost ?? 0), 0);
  return Math.sqrt(lost / extent(track.run));
}

function hasFault({ side, track, index }: Figure, code: 'resolution' | 'clipped'): boolean {
  return findingsOf(side, track, index).some((finding) => finding.code === code && finding.severity === 'fault');
}

/** A move of ln(B/A) as a change in percent. */
const inPercent = (move: number): number => 100 * expm1Of(move);
