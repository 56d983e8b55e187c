import { operand } from '../arguments.ts';
import { whyNoFrequencies } from '../../analysis/spectra/orderAxis.ts';
import { whyUneven } from '../../analysis/recordings/runs.ts';
import { spectrumOf } from '../../analysis/spectra/spectrum.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { ComparisonSide } from '../../values/comparison.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import type { WindowValue } from '../../values/window.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import type { TransferEntry, TransferValue } from '../../values/transfer.ts';
import { refuse, type Failure } from '../../result/result.ts';
import type { Argument, Arguments } from '../verb.ts';
import type { Watch } from '../../values/ports.ts';
import { windowOf } from '../spectra/using.ts';

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
  readonly excluded: readonly ExcludedRun[];
}

export interface Track {
  readonly run: Run;
  readonly channel: Channel;
}

export interface Sides {
  readonly a: Side;
  readonly b: Side;
}

export type Refused = { readonly ok: false; readonly failure: Failure };

/** Both sides of a comparison. */
export function comparedSides(given: Arguments): Sides | Refused {
  const a = sideOf(given, 'a', 'A');
  if ('failure' in a) return a;
  const b = sideOf(given, 'b', 'B');
  if ('failure' in b) return b;
  if ((a.transfers === undefined) !== (b.transfers === undefined))
    return refuse('compare.kinds', 'A response can only be compared with a response.', 'b');
  const [unitA, unitB] = [a, b].map(unitOf);
  if (unitA !== unitB)
    return refuse('unit.mixed', `${a.name} is in ${unitA} and ${b.name} in ${unitB}: load both in one unit.`, 'b');
  if (a.channel !== b.channel)
    return refuse(
      'channel.mixed',
      `${a.name} is of channel ${a.channel} and ${b.name} of ${b.channel}: compare like with like.`,
      'b',
    );
  const shared = a.tracks.find(({ run }) =>
    b.tracks.some(({ run: other }) => other.file.sha256 === run.file.sha256 && other.start === run.start),
  );
  if (shared !== undefined)
    return refuse(
      'compare.same',
      `${shared.run.label} stands on both sides: a run can't be evidence against itself.`,
      'b',
    );
  return { a, b };
}

const unitOf = ({ tracks, transfers }: Side): string => (transfers?.[0] ?? tracks[0].channel).unit.symbol;

function sideOf(given: Arguments, name: 'a' | 'b', fallback: string): Side | Refused {
  const argument = operand(given, name);
  const value = argument?.type === 'value' ? argument.value : undefined;
  const called = calledBy(argument) ?? fallback;
  const including = given.options.including !== undefined;
  switch (value?.kind) {
    case 'runs':
      return ofRuns(value, called, windowOf(given), including, name);
    case 'spectrum':
      return ofSpectrum(value, called, including, name);
    case 'transfer':
      return ofTransfer(value, called, name);
    default:
      return refuse('operand.kind', 'Only runs, their spectra or their responses can be compared.', name);
  }
}

const calledBy = (argument: Argument | undefined): string | undefined =>
  argument?.type !== 'value'
    ? undefined
    : 'set' in argument.value && argument.value.set !== undefined
      ? argument.value.set
      : argument.name;

function ofRuns(value: RunsValue, name: string, window: WindowValue, including: boolean, at: string): Side | Refused {
  const uneven = whyUneven(value);
  if (uneven !== undefined) return uneven;
  const runs = [...value.runs, ...(including ? includable(value.excluded) : [])];
  const channels = [...new Set(runs.flatMap((run) => run.channels.map((channel) => channel.name)))];
  if (channels.length > 1) return manyChannels(name, channels, at);
  const tracks = runs.map((run) => ({ run, channel: run.channels[0] }));
  const excluded = value.excluded ?? [];
  return { name, channel: channels[0], tracks, spectrum: undefined, window, transfers: undefined, excluded };
}

function ofSpectrum(value: SpectrumValue, name: string, including: boolean, at: string): Side | Refused {
  const orders = whyNoFrequencies(value, at);
  if (orders !== undefined) return orders;
  const channels = [...new Set(value.entries.map(({ channel }) => channel.name))];
  if (channels.length > 1) return manyChannels(name, channels, at);
  const excluded = value.excluded ?? [];
  const more = (including ? includable(excluded) : []).flatMap((run) => {
    const channel = run.channels.find((one) => one.name === channels[0]);
    return channel === undefined ? [] : [{ run, channel }];
  });
  const tracks = [...value.entries.map(({ run, channel }) => ({ run, channel })), ...more];
  const spectrum = more.length === 0 ? value : undefined;
  return { name, channel: channels[0], tracks, spectrum, window: value.window, transfers: undefined, excluded };
}

function ofTransfer(value: TransferValue, name: string, at: string): Side | Refused {
  const ways = [...new Set(value.entries.map(({ from, to }) => `${from} to ${to}`))];
  if (ways.length > 1) return manyChannels(name, ways, at);
  const tracks = value.entries.flatMap(({ run, to }) => {
    const channel = run.channels.find((one) => one.name === to);
    return channel === undefined ? [] : [{ run, channel }];
  });
  const { excluded = [], window, entries } = value;
  return { name, channel: ways[0], tracks, spectrum: undefined, window, transfers: entries, excluded };
}

/** Excluded runs that went through every step. */
const includable = (excluded: readonly ExcludedRun[] | undefined): Run[] =>
  (excluded ?? []).flatMap(({ run }) => run ?? []);

function manyChannels(called: string, channels: readonly string[], at: string): Refused {
  return refuse(
    'channel.many',
    `${called} has the channels ${channels.join(', ')}: choose one to compare, as in "channel ${called} ${channels[channels.length - 1]}", or take the resultant.`,
    at,
  );
}

/** The side's spectrum, made now where none was given; or why none can be made. */
export function sideSpectrum(side: Side, watch: Watch, at: string): SpectrumValue | Refused {
  if (side.spectrum !== undefined) return side.spectrum;
  const runs = side.tracks.map(({ run, channel }) => ({ ...run, channels: [channel] }));
  const found = spectrumOf({ set: side.name, runs }, { window: side.window }, watch, at);
  return found.ok ? found.value : found;
}

/** A side as a later claim finds it in a comparison. */
export function sideAgain({ name, spectrum, excluded = [] }: ComparisonSide): Side | undefined {
  if (spectrum === undefined) return undefined;
  const tracks = spectrum.entries.map(({ run, channel }) => ({ run, channel }));
  const { window, entries } = spectrum;
  return { name, channel: entries[0].channel.name, tracks, spectrum, window, transfers: undefined, excluded };
}
