import { channelNames, detail, field, figure } from './columns.ts';
import type { Cells } from './cells.ts';
import type { Column, DrawnDescription, Rows } from './description.ts';
import { figureCells, rowJson, rowsCells } from './rows.ts';
import type { Unit } from '../units/unit.ts';
import { channelIn, runIn, scalingTo } from './scaling.ts';
import type { Channel, Run } from './run.ts';
import { log10Of, log2Of } from '../numbers/logarithm.ts';

/** A density given by breakpoints that are joined by straight lines on log-log paper. */
export interface ProfileValue {
  readonly kind: 'profile';
  readonly unit: Unit;
  readonly points: readonly { readonly frequency: number; readonly density: number }[];
  /** r.m.s. of the whole profile, in the root of unit x Hz. */
  readonly rms: number;
  readonly rmsUnit: Unit;
  /** Spectra held against it, where some were given. */
  readonly against?: readonly ProfileAgainst[];
}

/** One spectrum against a profile, over the profile's range. */
export interface ProfileAgainst {
  readonly run: Run;
  readonly channel: Channel;
  /** r.m.s. of the spectrum within the range, in the profile's `rmsUnit`. */
  readonly rms: number;
  /** 20 log10 of that over the profile's r.m.s. */
  readonly decibels: number;
  /** The bins farthest above and below, in dB of density, and where in Hz; positive is above the profile. */
  readonly highest: { readonly decibels: number; readonly frequency: number };
  readonly lowest: { readonly decibels: number; readonly frequency: number };
  /** Share of the range's bins more than 3 dB off, 0 to 1. */
  readonly outside: number;
}

type Point = ProfileValue['points'][number];

const points: Rows<ProfileValue, Point> = {
  key: 'points',
  of: (value) => value.points,
  each: ['breakpoint', 'a breakpoint'],
  names: [],
  columns: [
    figure('frequency', 'Hz', ({ frequency }) => frequency, { each: 'as given' }),
    figure(
      'density',
      (_, { unit }) => unit,
      ({ density }) => density,
      { each: 'as given' },
    ),
    figure('slope', 'dB/octave', slopeAfter, {
      heading: 'slope to the next',
      jsonKey: 'slope_db_per_octave',
      title: 'Slope to the next',
      digits: 3,
      each: 'rounded',
    }),
  ],
};

/** From a breakpoint to the next, in dB of density an octave. */
function slopeAfter(point: Point, { points: all }: ProfileValue): number | undefined {
  const next = all.at(all.indexOf(point) + 1);
  if (next === undefined) return undefined;
  return (10 * log10Of(next.density / point.density)) / log2Of(next.frequency / point.frequency);
}

export const againstColumns: readonly Column<ProfileAgainst, ProfileValue>[] = [
  ...channelNames,
  figure(
    'rms',
    (_, { rmsUnit }) => rmsUnit,
    ({ rms }) => rms,
    { title: 'R.m.s.', written: 'r.m.s.' },
  ),
  figure('db', 'dB', ({ decibels }) => decibels, {
    heading: 'against profile',
    title: 'R.m.s. against the profile',
    decimals: 2,
    signed: true,
  }),
  figure('highest', 'dB', ({ highest }) => highest.decibels, { title: 'Highest bin', decimals: 1, signed: true }),
  figure('highest_at', 'Hz', ({ highest }) => highest.frequency, { heading: 'at', title: 'at' }),
  figure('lowest', 'dB', ({ lowest }) => lowest.decibels, { title: 'Lowest bin', decimals: 1, signed: true }),
  figure('lowest_at', 'Hz', ({ lowest }) => lowest.frequency, { heading: 'at', title: 'at' }),
  figure('over_3_db_off', '%', ({ outside }) => 100 * outside, {
    heading: 'bins over 3 dB off',
    title: 'Bins more than 3 dB off',
    digits: 3,
    each: 'rounded',
  }),
];

/** Its table has the breakpoints; or, where spectra were held against them, one row a spectrum. */
function profileCells(value: ProfileValue): Cells {
  const { against } = value;
  const rms = `${Number(value.rms.toPrecision(4))} ${value.rmsUnit.symbol} r.m.s.`;
  if (against === undefined) return rowsCells(`Profile, ${rms}`, points, value);
  const [from, to] = [value.points[0], value.points[value.points.length - 1]];
  const caption = `Against a profile of ${rms}, ${from.frequency} to ${to.frequency} Hz`;
  return figureCells(caption, againstColumns, against, value);
}

function profileIn(value: ProfileValue, asked: Unit): ProfileValue | undefined {
  const density = scalingTo(value.unit, asked);
  if (density === undefined) return undefined;
  const rms = scalingTo(value.rmsUnit, asked);
  const factor = rms?.factor ?? Math.sqrt(density.factor);
  const against = value.against?.map((one) => ({
    ...one,
    run: runIn(one.run, asked),
    channel: channelIn(one.channel, asked),
    rms: one.rms * factor,
  }));
  return {
    ...value,
    unit: density.unit,
    points: value.points.map((point) => ({ ...point, density: point.density * density.factor })),
    rms: value.rms * factor,
    rmsUnit: rms?.unit ?? value.rmsUnit,
    ...(against === undefined ? {} : { against }),
  };
}

export const profileKind = {
  kind: 'profile',
  words: 'a profile',
  summary: () => 'a profile',
  whole: [
    detail('unit', ({ unit }) => unit.symbol, 'text'),
    field(
      'rms',
      ({ rmsUnit }) => rmsUnit,
      ({ rms }) => rms,
      'The r.m.s. of a profile',
    ),
    detail('rms_unit', ({ rmsUnit }) => rmsUnit.symbol, 'text'),
  ],
  rows: points,
  after: [
    detail(
      'against',
      (value) => value.against?.map((one) => Object.fromEntries(rowJson(againstColumns, one, value))),
      'rows',
    ),
  ],
  table: profileCells,
  inUnit: profileIn,
  drawn: 'frequency',
  runs: () => [],
} satisfies DrawnDescription<ProfileValue, Point>;
