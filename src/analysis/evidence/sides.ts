import { answered, success, type Answer, type Refused, type Result, type Warning } from '../../result/result.ts';
import type { ComparisonSide } from '../../values/comparisonParts.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import { axesOf, type Channel, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { channelIn, excludedIn, runIn } from '../../values/scaling.ts';
import { spectrumIn, type SpectrumValue } from '../../values/spectrum.ts';
import { sameDimension } from '../../units/dimension.ts';
import type { Unit } from '../../units/unit.ts';
import type { TransferEntry, TransferValue } from '../../values/transfer.ts';
import type { WindowValue } from '../../values/window.ts';
import { refuse } from '../messages/evidence.ts';
import { refuse as refuseRuns } from '../messages/recordings.ts';
import { quantityOf } from '../recordings/dimensions.ts';
import { whyOtherAxes } from '../recordings/resultant.ts';
import { whyNoFrequencies } from '../spectra/orderAxis.ts';

/** One side of a comparison: one channel of each run. */
export interface Side {
  readonly name: string;
  readonly channel: string;
  readonly tracks: readonly Track[];
  /** Given, or to be made of the tracks when it is needed. */
  readonly spectrum: SpectrumValue | undefined;
  readonly window: WindowValue;
  /** Where responses are compared. */
  readonly transfers: readonly TransferEntry[] | undefined;
  /** Runs that the run sheet leaves out, whether they are among the tracks or not. */
  readonly excluded: readonly ExcludedRun[];
}

export interface Track {
  readonly run: Run;
  readonly channel: Channel;
}

export interface Sides {
  /** The baseline, and what is held against it. */
  readonly a: Side;
  readonly b: Side;
  /** Further conditions. */
  readonly others?: readonly Side[];
  /** Runs made in between, of no condition compared, that tell of a drift. */
  readonly reference?: Side | undefined;
}

/** The sides that are compared: the baseline, then each condition. */
export const comparedIn = ({ a, b, others = [] }: Sides): readonly Side[] => [a, b, ...others];

/** Every side that is measured: those compared, and the reference. */
export const measuredIn = (sides: Sides): readonly Side[] => [
  ...comparedIn(sides),
  ...(sides.reference === undefined ? [] : [sides.reference]),
];

/** The operand or option that a side of them is. */
export const sideAt = (sides: Sides, side: Side): SideAt =>
  side === sides.a ? 'a' : side === sides.reference ? 'reference' : 'b';

/** Every side made anew, or the first refusal. */
export function mappedSides(sides: Sides, make: (side: Side, at: SideAt) => Answer<Side>): Answer<Sides> {
  const made: Side[] = [];
  const warnings: Warning[] = [];
  for (const side of measuredIn(sides)) {
    const one = make(side, sideAt(sides, side));
    if (!one.ok) return one;
    made.push(one.value);
    warnings.push(...one.warnings);
  }
  const count = comparedIn(sides).length;
  return answered(arranged(made.slice(0, count), made.at(count)), warnings);
}

const arranged = ([a, b, ...others]: readonly Side[], reference: Side | undefined): Sides => ({
  a,
  b,
  ...(others.length === 0 ? {} : { others }),
  ...(reference === undefined ? {} : { reference }),
});

/** What can stand on a side. */
export type Comparable = RunsValue | SpectrumValue | TransferValue;

/** How a side is taken from what stands on it. */
export interface SideOptions {
  /** What the side is called. */
  readonly name: string;
  /** Of the spectra that are made of runs. */
  readonly window: WindowValue;
  /** Whether runs that the run sheet leaves out are taken in. */
  readonly includesExcluded: boolean;
  /** The operand to blame. */
  readonly at: SideAt;
  /** The channel to take, where there are several. */
  readonly axis?: string | undefined;
}

/** The operand or option of which a side is made. */
export type SideAt = 'a' | 'b' | 'reference';

/** A side made of runs, spectra or responses; refused where they are of orders, or of several channels. */
export function sideOf(value: Comparable, options: SideOptions): Result<Side> {
  switch (value.kind) {
    case 'runs':
      return sideOfRuns(value, options);
    case 'spectrum':
      return sideOfSpectra(value, options);
    case 'transfer':
      return sideOfTransfers(value, options);
  }
}

function sideOfRuns(given: RunsValue, { name, window, includesExcluded, at, axis }: SideOptions): Result<Side> {
  const value = axis === undefined ? given : ofAxis(given, axis);
  if (value === undefined) return noAxis(name, given.runs, axis, at);
  const { excluded = [] } = value;
  const runs = [...value.runs, ...(includesExcluded ? includable(excluded) : [])];
  const channels = [...new Set(runs.flatMap((run) => run.channels.map((channel) => channel.name)))];
  if (channels.length > 1) return manyChannels(name, channels, at);
  const tracks = runs.map((run) => ({ run, channel: run.channels[0] }));
  return success({ name, channel: channels[0], tracks, spectrum: undefined, window, transfers: undefined, excluded });
}

/** Runs with one of their channels; undefined where one of them has no such channel. */
function ofAxis(value: RunsValue, axis: string): RunsValue | undefined {
  const only = <R extends Run>(run: R): R => ({ ...run, channels: run.channels.filter(({ name }) => name === axis) });
  const runs = value.runs.map(only);
  const excluded = (value.excluded ?? []).map((one) => ({
    ...one,
    ...(one.run === undefined ? {} : { run: only(one.run) }),
  }));
  return runs.some(({ channels }) => channels.length === 0) ? undefined : { ...value, runs, excluded };
}

function noAxis(side: string, runs: readonly Run[], axis = '', at: SideAt): Refused {
  const channels = [...new Set(runs.flatMap((run) => run.channels.map(({ name }) => name)))];
  return refuse('compare.axis', { side, axis, channels }, at);
}

function sideOfSpectra(given: SpectrumValue, { name, includesExcluded, at, axis }: SideOptions): Result<Side> {
  const value =
    axis === undefined ? given : { ...given, entries: given.entries.filter(({ channel }) => channel.name === axis) };
  if (value.entries.length === 0)
    return noAxis(
      name,
      given.entries.map(({ run }) => run),
      axis,
      at,
    );
  const orders = whyNoFrequencies(value, at);
  if (orders !== undefined) return orders;
  const channels = [...new Set(value.entries.map(({ channel }) => channel.name))];
  if (channels.length > 1) return manyChannels(name, channels, at);
  const { excluded = [], window } = value;
  const more = (includesExcluded ? includable(excluded) : []).flatMap((run) => {
    const channel = run.channels.find((one) => one.name === channels[0]);
    return channel === undefined ? [] : [{ run, channel }];
  });
  const refusal = more.length === 0 ? undefined : whyNoSamples(name, value.entries[0], 'including excluded', at);
  if (refusal !== undefined) return refusal;
  const tracks = [...tracksOf(value), ...more];
  const spectrum = more.length === 0 ? value : undefined;
  return success({ name, channel: channels[0], tracks, spectrum, window, transfers: undefined, excluded });
}

function sideOfTransfers(value: TransferValue, { name, at, axis }: SideOptions): Result<Side> {
  if (axis !== undefined) return refuse('compare.axes', {}, 'axes');
  const ways = [...new Set(value.entries.map(({ from, to }) => `${from} to ${to}`))];
  if (ways.length > 1) return manyChannels(name, ways, at);
  const tracks = value.entries.flatMap(({ run, to }) => {
    const channel = run.channels.find((one) => one.name === to);
    return channel === undefined ? [] : [{ run, channel }];
  });
  const { excluded = [], window, entries } = value;
  return success({ name, channel: ways[0], tracks, spectrum: undefined, window, transfers: entries, excluded });
}

/** Each run and channel that a spectrum was made of. */
export const tracksOf = ({ entries }: SpectrumValue): Track[] => entries.map(({ run, channel }) => ({ run, channel }));

/**
 * Why what needs samples can't be had of a track whose spectrum was integrated: they are of what that came from.
 * @param needs what needs them, as it is written
 */
export function whyNoSamples(side: string, { run, channel }: Track, needs: string, at: SideAt): Refused | undefined {
  const of = integratedFrom({ run, channel });
  if (of === undefined) return undefined;
  const [quantity] = quantityOf(channel.unit);
  return refuse('compare.spectra', { side, quantity, of: of.unit.symbol, needs }, at);
}

/** The channel of the run that a track's spectrum was integrated from; undefined where it is of that itself. */
export function integratedFrom({ run, channel }: Track): Channel | undefined {
  const own = run.channels.find(({ name }) => name === channel.name);
  return own === undefined || sameDimension(own.unit.dimension, channel.unit.dimension) ? undefined : own;
}

/** Excluded runs that went through every step. */
const includable = (excluded: readonly ExcludedRun[]): Run[] => excluded.flatMap(({ run }) => run ?? []);

const manyChannels = (side: string, channels: readonly string[], at: SideAt): Refused =>
  refuse('channel.many', { side, channels }, at);

/**
 * The sides of a comparison, the baseline first; refused unless they are of one kind, unit, channel and axes, and no run
 * stands on two of them.
 *
 * @param list at least two
 * @param reference runs made in between
 */
export function sidesOf(list: readonly Side[], reference?: Side): Result<Sides> {
  const given = [...distinctlyNamed(list), ...(reference === undefined ? [] : [reference])];
  const all = given.map((side) => sideInUnit(side, unitOf(given[0])));
  for (let k = 1; k < all.length; k++) {
    for (const before of all.slice(0, k)) {
      const refusal = whyUnlike(before, all[k]);
      if (refusal !== undefined) return refusal;
    }
  }
  return success(arranged(all.slice(0, list.length), reference));
}

/** Further conditions that are called as one before them get their number. */
const distinctlyNamed = (list: readonly Side[]): Side[] =>
  list.map((side, k) => {
    const before = list.slice(0, k).filter(({ name }) => name === side.name).length;
    return k < 2 || before === 0 ? side : { ...side, name: `${side.name} (${before + 1})` };
  });

function whyUnlike(a: Side, b: Side): Refused | undefined {
  const names = { a: a.name, b: b.name };
  if ((a.transfers === undefined) !== (b.transfers === undefined)) return refuse('compare.kinds', {}, 'b');
  const [unitA, unitB] = [a, b].map((side) => unitOf(side).symbol);
  if (unitA !== unitB) return refuseRuns('unit.mixed', { ...names, unitA, unitB }, 'b');
  if (a.channel !== b.channel)
    return refuse('channel.mixed', { ...names, channelA: a.channel, channelB: b.channel }, 'b');
  const [weightingsA, weightingsB] = [a, b].map(weightingsOf);
  if (new Set([...weightingsA, ...weightingsB]).size > 1)
    return refuse('compare.weightings', { ...names, weightingsA, weightingsB }, 'b');
  const unlike = whyOtherResultant([...a.tracks, ...b.tracks], 'b');
  if (unlike !== undefined) return unlike;
  const stretchOf = ({ run }: Track): string => `${run.file.sha256} ${run.start}`;
  const others = new Set(b.tracks.map(stretchOf));
  const shared = a.tracks.find((track) => others.has(stretchOf(track)));
  return shared === undefined ? undefined : refuse('compare.same', { run: shared.run.label }, 'b');
}

/** The weightings that the runs of a side were given before, each once; empty text of those that were given none. */
const weightingsOf = ({ tracks }: Side): string[] => [
  ...new Set(tracks.map(({ channel: { weighting = '' } }) => weighting)),
];

/** Why tracks can't stand beside one another, where they are resultants of other axes than the first. @param at what is to blame */
export function whyOtherResultant([first, ...others]: readonly Track[], at: string): Refused | undefined {
  if (first.channel.axes === undefined) return undefined;
  const axes = ({ run, channel }: Track): { run: Run; axes: readonly Signal[] } => ({ run, axes: axesOf(channel) });
  for (const other of others) {
    const refusal = whyOtherAxes(axes(other), axes(first), at);
    if (refusal !== undefined) return refusal;
  }
  return undefined;
}

const unitOf = ({ tracks, transfers }: Side): Unit => (transfers?.[0] ?? tracks[0].channel).unit;

/** A side in the unit of the baseline, where it measures the same in another. */
function sideInUnit(side: Side, unit: Unit): Side {
  const { tracks, spectrum, transfers } = side;
  if (transfers !== undefined || tracks.every(({ channel }) => channel.unit.symbol === unit.symbol)) return side;
  return {
    ...side,
    tracks: tracks.map(({ run, channel }) => ({ run: runIn(run, unit), channel: channelIn(channel, unit) })),
    spectrum: spectrum && (spectrumIn(spectrum, unit) ?? spectrum),
    ...excludedIn(side, unit),
  };
}

/** The side that a comparison was made of; undefined where its spectra were not kept, so that nothing can be measured anew. */
export function sideOfComparison({ name, spectrum, excluded = [] }: ComparisonSide, axis: string): Side | undefined {
  if (spectrum === undefined) return undefined;
  const own = { ...spectrum, entries: spectrum.entries.filter(({ channel }) => channel.name === axis) };
  const { window } = spectrum;
  return { name, channel: axis, tracks: tracksOf(own), spectrum: own, window, transfers: undefined, excluded };
}

/** The run of any side that was sampled the slowest. */
export const slowestRun = (sides: Sides): Run =>
  measuredIn(sides)
    .flatMap(({ tracks }) => tracks.map(({ run }) => run))
    .reduce((least, run) => (run.rate < least.rate ? run : least));
