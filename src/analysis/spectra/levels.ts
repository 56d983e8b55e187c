import { answered, type Answer } from '../../result/result.ts';
import { additionalMethods } from '../../signal/exposure.ts';
import { moments, type Moments } from '../../signal/levels.ts';
import type { LevelsRow, LevelsValue } from '../../values/levels.ts';
import type { Watch } from '../../values/ports.ts';
import { sampleCount, sampledFor, type Channel, type Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { tell } from '../messages/spectra.ts';
import { together, type RunWarning } from '../together.ts';
import { channelLevels, doseOf, powersOf, type ChannelLevels } from './channelLevels.ts';
import { exposureOf } from './exposure.ts';
import type { LongLevels } from './longLevels.ts';
import { holdsSpan, largestRunning, withoutSpan } from './running.ts';

/** What is left of a mean that was taken out is rounding, below this share of the r.m.s. */
const rounding = 1e-13;

/** s; the span of the MTVV. */
export const mtvvSpan = 1;

/**
 * The single-number levels of every run and channel, in the channel's unit unless said (ISO 2631-1:1997, 6.3.1 and
 * 6.3.2), with the published ranges beside levels of weighted acceleration. All are of the samples as logged, never of
 * a resampled copy, and each sample counts once (docs of `levels` in `signal` say why), however uneven its time.
 * @param known levels that were made before, of runs that are too large for memory
 */
export function levelsOf(
  runs: RunsValue,
  watch: Watch,
  known: ReadonlyMap<Channel, LongLevels> = new Map(),
): Answer<LevelsValue> {
  const rows: LevelsRow[] = [];
  const scratch = scratchFor(runs);
  runs.runs.forEach((run, index) => {
    watch.progress(index / runs.runs.length, `levels of ${run.label}`);
    for (const channel of run.channels) rows.push(levelsRow(run, channel, scratch, known.get(channel)));
  });
  const ofAxes = rows.flatMap((row) => axisRows(row, scratch));
  const exposure = exposureOf(ofAxes);
  const value: LevelsValue = { kind: 'levels', set: runs.set, rows, ...(exposure === undefined ? {} : { exposure }) };
  return answered(value, together([...ofAxes.flatMap(additionalMethodsOf), ...runs.runs.flatMap(mtvvLeavesOut)]));
}

/**
 * The levels of every run and channel that comparisons take, without what a reader is told of them: no MTVV, no published
 * ranges and no warnings, but the power of each axis.
 */
export function bareLevels(runs: RunsValue): LevelsValue {
  const scratch = scratchFor(runs);
  const rows = runs.runs.flatMap((run) =>
    run.channels.map((channel): LevelsRow => {
      const means = momentsOf(channel);
      const found = channelLevels(channel, scratch, means);
      return { ...rowOf(run, channel, found, means), powers: powersOf(channel, means) };
    }),
  );
  return { kind: 'levels', set: runs.set, rows };
}

/** Room for the percentiles of each channel in turn. */
const scratchFor = ({ runs }: RunsValue): Float64Array =>
  new Float64Array(Math.max(0, ...runs.map((run) => (run.long === undefined ? sampleCount(run) : 0))));

/** Moments of a signal; a resultant has those of its axes alone. */
const momentsOf = (channel: Channel): Moments | undefined =>
  channel.axes === undefined ? moments(channel.samples) : undefined;

/** What of a run no whole second holds: its MTVV is of the rest. A run that holds none at all has no MTVV. */
function mtvvLeavesOut(run: Run): RunWarning[] {
  if (!hasMtvv(run)) return [];
  return withoutSpan(run, mtvvSpan).map((facts) => {
    const code = 'levels.mtvv-short';
    return { code, of: run.label, tell: (others) => tell(code, { ...facts, others }) };
  });
}

/** The standards judge a weighted resultant by its axes. */
const axisRows = (row: LevelsRow, scratch: Float64Array): LevelsRow[] =>
  row.channel.axes === undefined || row.channel.weighting === undefined
    ? [row]
    : row.channel.axes.map((axis) => levelsRow(row.run, axis, scratch));

const hasMtvv = (run: Run): boolean => Math.round(mtvvSpan * run.rate) >= 1 && holdsSpan(run, mtvvSpan);

function levelsRow(run: Run, channel: Channel, scratch: Float64Array, known?: LongLevels): LevelsRow {
  const means = known?.moments ?? momentsOf(channel);
  const found: ChannelLevels = known?.levels ?? channelLevels(channel, scratch, means);
  const transient = hasMtvv(run)
    ? (known?.running ?? largestRunning(run, channel, mtvvSpan, means && [means.mean]))
    : undefined;
  return rowOf(run, channel, found, means, transient);
}

/** @param transient the largest running r.m.s. and where its span ends, in s on the recording's axis; undefined where there is none */
function rowOf(
  run: Run,
  channel: Channel,
  found: ChannelLevels,
  means: Moments | undefined,
  transient?: { readonly largest: number; readonly largestAt: number },
): LevelsRow {
  return {
    run,
    channel,
    mean: Math.abs(found.mean) < rounding * found.rms ? 0 : found.mean,
    rms: found.rms,
    totalRms: found.totalRms,
    peak: found.peak,
    peakToPeak: found.peakToPeak,
    crestFactor: found.crest ?? undefined,
    kurtosis: found.kurtosis ?? undefined,
    skewness: found.skewness ?? undefined,
    vdv: doseOf(run, channel, means),
    percentile99: found.p99,
    percentile999: found.p999,
    mtvv: transient?.largest,
    mtvvAt: transient === undefined ? undefined : transient.largestAt - run.stretches[0].start,
    duration: sampledFor(run),
  };
}

/** Weightings of the whole body, which ISO 2631-1 is about. */
const wholeBody = ['Wk', 'Wd', 'Wc', 'We', 'Wj'];

/** What of a weighted signal calls for more than its r.m.s. */
function additionalMethodsOf(row: LevelsRow): RunWarning[] {
  const { run, channel, rms, peak, mtvv, vdv, duration } = row;
  if (!wholeBody.includes(channel.weighting ?? '') || vdv === undefined || !(rms > 0)) return [];
  const greatestRunning = mtvv ?? 0;
  const dose = vdv / channel.unit.factor;
  const found = additionalMethods({ rms, peak, greatestRunning, dose, seconds: duration });
  const signs = [found.crest, found.transient, found.dose];
  if (!signs.some(({ calledFor }) => calledFor)) return [];
  const [crest, transient, doses] = signs.map(({ calledFor, value }) => (calledFor ? value : undefined));
  const code = 'levels.additional';
  const facts = { run: run.label, channel: channel.name, crest, transient, dose: doses };
  return [
    {
      code,
      of: `${run.label}, ${channel.name}`,
      sameFor: signs.map(({ calledFor }) => calledFor).join(),
      tell: (others) => tell(code, { ...facts, others }),
    },
  ];
}
