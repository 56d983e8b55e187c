import { answered, type Answer, type Warning } from '../../result/result.ts';
import type { Density } from '../../signal/welch.ts';
import type { Channel, Run } from '../../values/run.ts';
import { joinedWarnings } from '../joined.ts';
import { whyUnweightable } from '../conditioning/weight.ts';
import { isWeighting } from './metrics.ts';
import type { ComparisonTerms, KnownOfTracks, SignalLevels } from './request.ts';
import { mappedSides, measuredIn, type Side, type SideAt, type Sides, type Track } from './sides.ts';

/** What a comparison takes of a channel whose samples are away, made of its recording by itself. */
export interface Figures {
  /** As they are compared: at a uniform rate and weighted, where that is asked for. */
  readonly run: Run;
  readonly channel: Channel;
  /** What is told of its run by the one and the other. */
  readonly evened: readonly Warning[];
  readonly weighted: readonly Warning[];
  /** In unit^2/Hz. */
  readonly density?: Density;
  readonly levels?: SignalLevels;
}

/** By the channels as they were given. */
export type FiguresOf = ReadonlyMap<Channel, Figures>;

/**
 * All sides as `evenSides` and `weightedSides` make them of samples, taken from what was made of each recording. Refused
 * of what can't be weighted.
 */
export function sidesOfFigures(sides: Sides, terms: ComparisonTerms, figures: FiguresOf): Answer<Sides> {
  const made = mappedSides(sides, (side, at) => sideOfFigures(side, at, terms, figures));
  if (!made.ok) return made;
  const told = (by: 'evened' | 'weighted'): Warning[] =>
    measuredIn(sides).flatMap(({ tracks }) =>
      joinedWarnings(tracks.flatMap(({ channel }) => figures.get(channel)?.[by] ?? [])),
    );
  return answered(made.value, [...told('evened'), ...told('weighted')]);
}

function sideOfFigures(side: Side, at: SideAt, terms: ComparisonTerms, figures: FiguresOf): Answer<Side> {
  if (isWeighting(terms.metric))
    for (const { run, channel } of side.tracks) {
      const refusal = whyUnweightable(run.label, channel, at);
      if (refusal !== undefined) return refusal;
    }
  return answered({ ...side, tracks: side.tracks.map((track) => trackOf(track, terms, figures.get(track.channel))) });
}

/** A track as it is compared; what is compared as it was logged stays as it is. */
function trackOf(track: Track, { metric, ofSignal }: ComparisonTerms, figures: Figures | undefined): Track {
  const isMade = isWeighting(metric) || (!ofSignal && track.run.stamps !== undefined);
  if (figures === undefined || !isMade) return track;
  const { run, channel } = figures;
  return { run: { ...run, channels: [channel] }, channel };
}

/** The logger at rest as its densities were made: at a uniform rate. */
export function floorOfFigures(floor: ComparisonTerms['floor'], figures: FiguresOf): ComparisonTerms['floor'] {
  if (floor?.kind !== 'runs') return floor;
  const evenRun = (run: Run): Run => (run.stamps === undefined ? run : (figures.get(run.channels[0])?.run ?? run));
  return { ...floor, runs: floor.runs.map(evenRun) };
}

/** What is known of the channels, as they were given and as they are compared. */
export function knownOfFigures(figures: FiguresOf): KnownOfTracks {
  const densities = new Map<Channel, Density>();
  const levels = new Map<Channel, SignalLevels>();
  for (const [given, own] of figures)
    for (const channel of [given, own.channel]) {
      if (own.density !== undefined) densities.set(channel, own.density);
      if (own.levels !== undefined) levels.set(channel, own.levels);
    }
  return { densities, levels };
}
