import type { NamedDimension } from '../units/dimension.ts';
import { nearest } from '../units/nearest.ts';
import { unit } from '../units/parse.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import type { BandRow } from './bands.ts';
import type { ComparisonRow } from './comparison.ts';
import type { LevelsRow } from './levels.ts';
import type { Kind, Value } from './value.ts';
import type { PeakRow } from './peaks.ts';
import type { RepeatsValue } from './repeats.ts';
import type { RunningEntry } from './running.ts';
import type { VerdictValue } from './verdict.ts';
import { refuse, success, type Result } from '../result/result.ts';

type Reading<T> = Readonly<Record<string, (row: T) => Quantity | undefined>>;

/** A scalar that can be read off a value of a kind: `C.change`. */
interface FieldForm {
  readonly name: string;
  readonly doc: string;
  /** What it measures, where that does not depend on the value. */
  readonly dimension?: NamedDimension;
}

const of = (value: number | undefined, symbol: Unit | string): Quantity | undefined =>
  value === undefined || Number.isNaN(value)
    ? undefined
    : { value, unit: typeof symbol === 'string' ? unit(symbol) : symbol };

const levelsFields: Reading<LevelsRow> = {
  mean: (row) => of(row.mean, row.channel.unit),
  rms: (row) => of(row.rms, row.channel.unit),
  total_rms: (row) => of(row.totalRms, row.channel.unit),
  peak: (row) => of(row.peak, row.channel.unit),
  peak_to_peak: (row) => of(row.peakToPeak, row.channel.unit),
  crest_factor: (row) => of(row.crestFactor, ''),
  kurtosis: (row) => of(row.kurtosis, ''),
  skewness: (row) => of(row.skewness, ''),
  duration: (row) => of(row.duration, 's'),
  vdv: (row) => of(row.vdv, 'm/s^1.75'),
  mtvv: (row) => of(row.mtvv, row.channel.unit),
  mtvv_at: (row) => of(row.mtvvAt, 's'),
  p99: (row) => of(row.percentile99, row.channel.unit),
  p99_9: (row) => of(row.percentile999, row.channel.unit),
};

const peaksFields: Reading<PeakRow> = {
  frequency: (row) => of(row.frequency, 'Hz'),
  level: (row) => of(row.level, row.unit),
  prominence: (row) => of(row.prominence, 'dB'),
  width: (row) => of(row.width, 'Hz'),
  damping: (row) => of(row.damping, ''),
};

const runningFields: Reading<RunningEntry> = {
  largest: (row) => of(row.largest, row.channel.unit),
  largest_at: (row) => of(row.largestAt, 's'),
};

const bandsFields: Reading<BandRow> = { rms: (row) => of(row.rms, row.unit) };

const comparisonFields: Reading<ComparisonRow> = {
  a: (row) => of(row.a, row.unit),
  b: (row) => of(row.b, row.unit),
  change: (row) => of(row.changePercent, '%'),
  change_db: (row) => of(row.changeDb, 'dB'),
  low: (row) => of(row.lowPercent, '%'),
  high: (row) => of(row.highPercent, '%'),
  ratio: (row) => of(1 + row.changePercent / 100, ''),
  spread: (row) => of(row.spread === undefined ? undefined : 100 * row.spread, '%'),
  share: (row) => of(row.shareOfA, '%'),
};

const verdictFields: Reading<VerdictValue> = {
  reduction: (value) => of(value.reductionPercent, '%'),
  low: (value) => of(value.lowPercent, '%'),
  high: (value) => of(value.highPercent, '%'),
  power_reduction: (value) => of(value.powerReductionPercent, '%'),
};

const repeatsFields: Reading<RepeatsValue> = {
  runs: (value) => of(value.runs, ''),
  power: (value) => of(value.reached === undefined ? undefined : 100 * value.reached, '%'),
};

const named = (
  kind: string,
  fields: Readonly<Record<string, readonly [doc: string, dimension?: NamedDimension]>>,
): FieldForm[] =>
  Object.entries(fields).map(([name, [doc, dimension]]) => ({
    name,
    doc: `${doc} of ${kind}`,
    ...(dimension === undefined ? {} : { dimension }),
  }));

/** Scalars that can be asked of each kind of value, by `name.field`. */
export const fields: Partial<Readonly<Record<Kind, readonly FieldForm[]>>> = {
  levels: named('a run’s channel', {
    mean: ['The mean'],
    rms: ['The r.m.s., mean removed,'],
    total_rms: ['The r.m.s., mean kept,'],
    peak: ['The largest distance from the mean'],
    peak_to_peak: ['The largest less the smallest value'],
    crest_factor: ['Peak over r.m.s.', 'ratio'],
    kurtosis: ['The kurtosis, 3 for a Gaussian,', 'ratio'],
    skewness: ['The skewness', 'ratio'],
    duration: ['The duration', 'time'],
    vdv: ['The vibration dose value'],
    mtvv: ['The largest r.m.s. over 1 s'],
    mtvv_at: ['The end of the second of the largest r.m.s.', 'time'],
    p99: ['The level that |x − mean| stays below 99 % of the time'],
    p99_9: ['The level that |x − mean| stays below 99.9 % of the time'],
  }),
  peaks: named('a peak', {
    frequency: ['The frequency', 'frequency'],
    level: ['The height'],
    prominence: ['The height over the surroundings', 'level'],
    width: ['The half-power width', 'frequency'],
    damping: ['The damping ratio', 'ratio'],
  }),
  running: named('a run’s channel', {
    largest: ['The largest running r.m.s.'],
    largest_at: ['The end of the span of the largest running r.m.s.', 'time'],
  }),
  profile: named('a profile', { rms: ['The r.m.s.'] }),
  bands: named('a band', { rms: ['The r.m.s.'] }),
  comparison: named('a band', {
    a: ['The geometric mean over the runs of A'],
    b: ['The geometric mean over the runs of B'],
    change: ['The change B/A − 1', 'ratio'],
    change_db: ['The change in dB', 'level'],
    low: ['The lower end of the change’s interval', 'ratio'],
    high: ['The upper end of the change’s interval', 'ratio'],
    ratio: ['The ratio B/A', 'ratio'],
    spread: ['The scatter from run to run (standard deviation of ln level)', 'ratio'],
    share: ['The share of A’s mean square', 'ratio'],
  }),
  verdict: named('a verdict', {
    reduction: ['The reduction found', 'ratio'],
    low: ['The lower end of the reduction’s interval', 'ratio'],
    high: ['The upper end of the reduction’s interval', 'ratio'],
    power_reduction: ['The reduction of mean square', 'ratio'],
  }),
  repeats: named('a plan of repeats', {
    runs: ['The runs of each condition', 'ratio'],
    power: ['The power that so many runs give', 'ratio'],
  }),
  runs: named('a run', {
    rate: ['The rate', 'frequency'],
    duration: ['The duration', 'time'],
    count: ['The number', 'ratio'],
  }),
  spectrum: named('a spectrum', {
    spacing: ['The bin spacing', 'frequency'],
    averages: ['The effective number of averages', 'ratio'],
  }),
};

/** A scalar of a result; where a result has several rows, one must be picked first. */
export function fieldOf(value: Value, field: string): Result<Value> {
  const known = fields[value.kind]?.map(({ name }) => name);
  if (known === undefined) return refuse('field.kind', `A value of the kind ${value.kind} has no fields.`);
  if (!known.includes(field)) {
    const near = nearest(field, known)[0];
    return refuse(
      'field.unknown',
      `A value of the kind ${value.kind} has no field ${field}: ${near === undefined ? `it has ${known.join(', ')}` : `did you mean ${near}`}.`,
    );
  }
  switch (value.kind) {
    case 'levels':
      return single(value.rows, levelsFields[field], field, 'run and channel');
    case 'bands':
      return single(value.rows, bandsFields[field], field, 'run, channel and band');
    case 'peaks':
      return single(value.rows, peaksFields[field], field, 'peak');
    case 'running':
      return single(value.entries, runningFields[field], field, 'run and channel');
    case 'profile':
      return quantityAnswer(of(value.rms, value.rmsUnit), field);
    case 'comparison': {
      // The band that was named beforehand speaks for the comparison.
      const primary = value.rows.filter((row) => row.primary === true);
      return single(primary.length === 1 ? primary : value.rows, comparisonFields[field], field, 'band');
    }
    case 'verdict':
      return quantityAnswer(verdictFields[field](value), field);
    case 'repeats':
      return quantityAnswer(repeatsFields[field](value), field);
    case 'runs': {
      if (field === 'count') return quantityAnswer(of(value.runs.length, ''), field);
      return single(
        value.runs,
        (run) => (field === 'rate' ? of(run.rate, 'Hz') : of(run.channels[0].samples.length / run.rate, 's')),
        field,
        'run',
      );
    }
    case 'spectrum':
      return single(
        value.entries,
        (entry) => (field === 'spacing' ? of(entry.spacing, 'Hz') : of(entry.averages, '')),
        field,
        'run and channel',
      );
    default:
      return refuse('field.kind', `A value of the kind ${value.kind} has no fields.`);
  }
}

function single<T>(
  rows: readonly T[],
  read: (row: T) => Quantity | undefined,
  field: string,
  what: string,
): Result<Value> {
  if (rows.length !== 1) {
    return refuse(
      'field.many',
      `There is one ${field} for each ${what}, ${rows.length} in all: pick one first, as in "name[1].${field}".`,
    );
  }
  return quantityAnswer(read(rows[0]), field);
}

function quantityAnswer(quantity: Quantity | undefined, field: string): Result<Value> {
  return quantity === undefined
    ? refuse('field.absent', `There is no ${field} here: the data did not allow one.`)
    : success({ kind: 'quantity', quantity });
}
