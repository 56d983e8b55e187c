import { sameDimension } from '../units/dimension.ts';
import { densityUnit, squaredSymbol, unit as unitNamed } from '../units/parse.ts';
import type { Unit } from '../units/unit.ts';
import type { ExcludedRun } from './excluded.ts';
import { changed } from './resultant.ts';
import type { Channel, Run, Signal } from './run.ts';

/** How figures of one unit are told in another: each times a factor. */
export interface Scaling {
  readonly unit: Unit;
  readonly factor: number;
}

/**
 * How figures in a unit are told when one is asked for: in it; of a density in its square over Hz, orders or cycles per metre.
 * @returns undefined where the unit asked for measures something else
 */
export function scalingTo(from: Unit, asked: Unit): Scaling | undefined {
  const to = formsOf(asked).find(({ dimension }) => sameDimension(dimension, from.dimension));
  if (to === undefined) return undefined;
  return { unit: to, factor: from.symbol === to.symbol ? 1 : from.factor / to.factor };
}

function formsOf(asked: Unit): readonly Unit[] {
  if (asked.symbol === '') return [asked];
  const squared = squaredSymbol(asked);
  return [asked, densityUnit(asked), unitNamed(squared), unitNamed(`${squared}*m`)];
}

export const scaled = (of: Float64Array, factor: number): Float64Array =>
  factor === 1 ? of : of.map((value) => value * factor);

type Known<T> = WeakMap<object, Map<string, T>>;

/** What was made of an object for a unit is made once: results share their runs, and samples are many. */
function once<T extends object>(known: Known<T>, of: T, unit: Unit, make: () => T): T {
  const made = known.get(of) ?? new Map<string, T>();
  known.set(of, made);
  const before = made.get(unit.symbol);
  if (before !== undefined) return before;
  const found = make();
  made.set(unit.symbol, found);
  return found;
}

const channels: Known<Channel> = new WeakMap();
const runs: Known<Run> = new WeakMap();

/** A channel in the unit that is asked for; itself where that measures something else. */
export function channelIn(channel: Channel, asked: Unit): Channel {
  const scaling = scalingOfChannel(channel, asked);
  if (scaling === undefined || scaling.unit.symbol === channel.unit.symbol) return channel;
  return once(channels, channel, scaling.unit, () => changed(channel, (signal) => signalIn(signal, scaling)));
}

/** Samples have no density: only the unit itself is meant. */
function scalingOfChannel({ unit }: Channel, asked: Unit): Scaling | undefined {
  return sameDimension(unit.dimension, asked.dimension) ? scalingTo(unit, asked) : undefined;
}

function signalIn(signal: Signal, { unit, factor }: Scaling): Signal {
  const { written, samples, unitFrom, outline } = signal;
  const kept = written?.unit === signal.unit.symbol;
  return {
    ...signal,
    unit,
    unitFrom: `${signal.unit.symbol}, ${unitFrom}`,
    ...(signal.away === undefined ? { samples: scaled(samples, factor) } : {}),
    ...(outline === undefined
      ? {}
      : { outline: { ...outline, low: scaled(outline.low, factor), high: scaled(outline.high, factor) } }),
    ...(kept ? { written: { step: written.step * factor, unit: unit.symbol } } : {}),
  };
}

/** A run with every channel that can be told so in the unit that is asked for; itself where none can. */
export function runIn(run: Run, asked: Unit): Run {
  if (run.channels.every((channel) => channelIn(channel, asked) === channel)) return run;
  return once(runs, run, asked, () => ({
    ...run,
    channels: run.channels.map((channel) => channelIn(channel, asked)),
    findings: run.findings.map((finding) => {
      const channel = run.channels.find(({ name }) => name === finding.channel);
      const scaling = channel && scalingOfChannel(channel, asked);
      return scaling === undefined || finding.lost === undefined
        ? finding
        : { ...finding, lost: finding.lost * scaling.factor ** 2 };
    }),
  }));
}

/** Whether any channel of a run can be told in the unit that is asked for. */
export const measuresIn = ({ channels: all }: Run, asked: Unit): boolean =>
  all.some((channel) => scalingOfChannel(channel, asked) !== undefined);

/** The runs that a sheet leaves out, in the unit that is asked for. */
export const excludedIn = <V extends { readonly excluded?: readonly ExcludedRun[] }>(
  { excluded }: V,
  asked: Unit,
): Pick<V, 'excluded'> =>
  excluded === undefined
    ? {}
    : {
        excluded: excluded.map((one) => (one.run === undefined ? one : { ...one, run: runIn(one.run, asked) })),
      };

/** Every row told in the unit that is asked for, rows of something else as they are; undefined where none can be told so. */
export function rowsIn<Row>(
  rows: readonly Row[],
  asked: Unit,
  unitOf: (row: Row) => Unit,
  make: (row: Row, scaling: Scaling) => Row,
): Row[] | undefined {
  const scalings = rows.map((row) => scalingTo(unitOf(row), asked));
  if (scalings.every((one) => one === undefined)) return undefined;
  return rows.map((row, index) => {
    const scaling = scalings[index];
    return scaling === undefined ? row : make(row, scaling);
  });
}
