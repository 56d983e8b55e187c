import { channelNames, field, figure, ofRun } from './columns.ts';
import { cellsOf, type Cell, type Cells } from './cells.ts';
import type { DrawnDescription, Known } from './description.ts';
import { inShort, unique } from './short.ts';
import { counted } from '../result/words.ts';
import { formatNumber, formatSpread } from '../units/format.ts';
import { finite, list, type Json } from './jsonNumbers.ts';
import type { Unit } from '../units/unit.ts';
import { spectrumSchema } from './spectrumSchema.ts';
import type { ExcludedRun } from './excluded.ts';
import { channelIn, excludedIn, rowsIn, runIn, scaled, scalingTo, type Scaling } from './scaling.ts';
import type { Channel, Run } from './run.ts';
import type { WindowValue } from './window.ts';

/** One-sided Welch spectra, one per run and channel, all with the same frequency spacing within each entry. */
export interface SpectrumValue {
  readonly kind: 'spectrum';
  readonly form: 'psd' | 'amplitude';
  readonly set: string | undefined;
  readonly window: WindowValue;
  /** Of the confidence limits, 0 to 1. */
  readonly confidence: number;
  readonly entries: readonly SpectrumEntry[];
  /** Mean over runs per channel (power mean), where the runs share one frequency axis. */
  readonly means: readonly SpectrumMean[];
  readonly excluded?: readonly ExcludedRun[];
  /** Where frequencies were divided by a speed: then `spacing` and densities are over this, and no longer in Hz. */
  readonly axis?: SpectrumAxis;
}

/** What a spectrum is over, when that is not frequency. */
export interface SpectrumAxis {
  readonly name: 'cycles per metre' | 'order';
  /** `1/m`, or empty for orders. */
  readonly unit: Unit;
  /** The speed or turning rate, in words: `1.2 m/s`. */
  readonly by: string;
}

export interface SpectrumEntry {
  readonly run: Run;
  readonly channel: Channel;
  /** Unit of `level`: `g^2/Hz` for a density, `g` for amplitude. */
  readonly unit: Unit;
  /** Bin spacing in Hz: rate / segmentSamples, exactly. Bin k is at k x spacing. */
  readonly spacing: number;
  readonly segments: number;
  readonly segmentSamples: number;
  /** Equivalent noise bandwidth in Hz. */
  readonly noiseBandwidth: number;
  /** Effective number of independent averages. */
  readonly averages: number;
  readonly level: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** The density whatever the form, so that bands can be taken of an amplitude spectrum too. */
  readonly density: Float64Array;
}

export interface SpectrumMean {
  readonly channel: string;
  readonly unit: Unit;
  readonly spacing: number;
  readonly level: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

export const spectrumKind = {
  kind: 'spectrum',
  words: 'a spectrum',
  summary: spectrumInShort,
  known: knownOf,
  whole: [],
  rows: {
    key: 'runs',
    of: ({ entries }) => entries,
    each: ['run and channel', 'a spectrum'],
    names: channelNames,
    columns: [
      figure('segments', '', ({ segments }) => segments, { each: 'as given' }),
      field('averages', '', ({ averages }) => averages, 'The effective number of averages', {
        digits: 3,
        each: 'rounded',
      }),
      field('spacing', 'Hz', ({ spacing }) => spacing, 'The bin spacing', { digits: 5, each: 'as given' }),
      figure('noise_bandwidth', 'Hz', ({ noiseBandwidth }) => noiseBandwidth, { digits: 4, each: 'as given' }),
    ],
    pick: { together: ofRun, keep: (value, entries) => ({ ...value, set: undefined, entries, means: [] }) },
  },
  json: spectrumJson,
  jsonSchema: spectrumSchema,
  table: spectrumCells,
  saved: spectrumLong,
  inUnit: spectrumIn,
  drawn: 'frequency',
  named: true,
  handsOnExcluded: true,
  runs: ({ entries }) => entries.map(({ run }) => run),
} satisfies DrawnDescription<SpectrumValue, SpectrumEntry>;

function spectrumInShort({ form, entries, axis }: SpectrumValue): string {
  if (entries.length === 0) return 'no runs';
  const spacing = formatSpread(entries.map(({ spacing }) => spacing));
  return inShort(
    `${form === 'psd' ? 'density' : 'amplitude'} in ${unique(entries.map(({ unit }) => unit.symbol)).join(' and ')}`,
    counted(unique(entries.map(({ run }) => run)).length, 'run'),
    `bins ${spacing} ${axis === undefined ? 'Hz' : axis.unit.symbol || 'of an order'} apart`,
    `about ${formatNumber(Math.min(...entries.map(({ averages }) => averages)), 2)} averages`,
  );
}

function knownOf({ entries, axis }: SpectrumValue): Known {
  if (entries.length === 0) return {};
  const units = unique(entries.map(({ unit }) => unit.symbol));
  return {
    channels: unique(entries.map(({ channel }) => channel.name)),
    ...(units.length === 1 ? { unit: units[0] } : {}),
    ...(axis === undefined ? { rate: Math.min(...entries.map(({ run }) => run.rate)) } : {}),
  };
}

/** The same in a unit that is asked for, of the signal or of its density; undefined where none of its curves can be told in it. */
export function spectrumIn(value: SpectrumValue, asked: Unit): SpectrumValue | undefined {
  const entries = rowsIn(value.entries, asked, own, (entry, scaling) => ({
    ...entry,
    ...curveIn(entry, scaling),
    run: runIn(entry.run, asked),
    channel: channelIn(entry.channel, asked),
    density: scaled(entry.density, value.form === 'amplitude' ? scaling.factor ** 2 : scaling.factor),
  }));
  const means = value.means.map((mean) => {
    const scaling = scalingTo(mean.unit, asked);
    return scaling === undefined ? mean : { ...mean, ...curveIn(mean, scaling) };
  });
  return entries && { ...value, entries, means, ...excludedIn(value, asked) };
}

const own = ({ unit }: SpectrumEntry): Unit => unit;

const curveIn = (
  { level, low, high }: SpectrumMean | SpectrumEntry,
  { unit, factor }: Scaling,
): Pick<SpectrumMean, 'unit' | 'level' | 'low' | 'high'> => ({
  unit,
  level: scaled(level, factor),
  low: scaled(low, factor),
  high: scaled(high, factor),
});

/** One axis for all, and a column a curve. */
function spectrumCells({ entries, axis }: SpectrumValue): Cells {
  const bins = Math.min(...entries.map(({ level }) => level.length));
  return cellsOf(
    'Spectrum',
    [
      axis === undefined ? ['frequency', 'Hz'] : [axis.name, axis.unit.symbol],
      ...entries.map(({ run, channel, unit }) => [`${run.label} ${channel.name}`, unit.symbol] as const),
    ],
    Array.from({ length: bins }, (_, k) => [k * entries[0].spacing, ...entries.map(({ level }) => level[k])]),
  );
}

/** One row a bin of each curve with its limits, those of the runs first; the mean's run is `mean`. */
function spectrumLong({ form, entries, means, axis, confidence }: SpectrumValue): Cells {
  const units = [...new Set([...entries, ...means].map(({ unit }) => unit.symbol))];
  const unit = units.length === 1 ? units[0] : '';
  const own = units.length === 1 ? [] : ([['unit', '']] as const);
  const rows = (
    run: string,
    channel: string,
    { spacing, level, low, high, unit }: SpectrumMean | SpectrumEntry,
  ): Cell[][] =>
    Array.from(level, (_, k) => [
      run,
      channel,
      ...own.map(() => unit.symbol),
      k * spacing,
      finite(level[k]),
      finite(low[k]),
      finite(high[k]),
    ]);
  return cellsOf(
    `Spectrum, limits at ${100 * confidence} %`,
    [
      ['run', ''],
      ['channel', ''],
      ...own,
      axis === undefined ? ['frequency', 'Hz'] : [axis.name, axis.unit.symbol],
      [form === 'amplitude' ? 'amplitude' : 'density', unit],
      ['low', unit],
      ['high', unit],
    ],
    [
      ...entries.flatMap((entry) => rows(entry.run.label, entry.channel.name, entry)),
      ...means.flatMap((mean) => rows('mean', mean.channel, mean)),
    ],
  );
}

/** Over orders or cycles per metre, `frequency` and `spacing` are in that axis and lose their `_hz`. */
function spectrumJson({ form, window, confidence, entries, means, axis }: SpectrumValue): Record<string, Json> {
  const [first] = entries;
  const hz = axis === undefined ? '_hz' : '';
  const curve = ({ level, low, high }: SpectrumMean | SpectrumEntry): Record<string, Json> => ({
    [form === 'amplitude' ? 'amplitude' : 'density']: list(level),
    low: list(low),
    high: list(high),
  });
  const mean = means.map((one) => ({ channel: one.channel, [`spacing${hz}`]: one.spacing, ...curve(one) }));
  return {
    unit: first.unit.symbol,
    form,
    window: window.shape,
    ...(axis === undefined ? {} : { axis: axis.name, axis_unit: axis.unit.symbol, by: axis.by }),
    [`spacing${hz}`]: first.spacing,
    segments: first.segments,
    segment_samples: first.segmentSamples,
    [`enbw${hz}`]: first.noiseBandwidth,
    averages: first.averages,
    confidence,
    [axis === undefined ? 'frequency_hz' : 'position']: Array.from(first.level, (_, k) => k * first.spacing),
    runs: entries.map((entry) => ({
      run: entry.run.label,
      channel: entry.channel.name,
      ...(entry.unit.symbol === first.unit.symbol ? {} : { unit: entry.unit.symbol }),
      // Clocks differ from run to run, and so then do the bins' frequencies.
      ...(entry.spacing === first.spacing ? {} : { [`spacing${hz}`]: entry.spacing }),
      segments: entry.segments,
      averages: entry.averages,
      ...curve(entry),
    })),
    mean: mean.length > 0 ? mean[0] : null,
    means: mean,
  };
}
