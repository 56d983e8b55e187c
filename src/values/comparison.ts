import { inPercent } from './columns.ts';
import type { DrawnDescription, Figure } from './description.ts';
import { excludedJson, type ExcludedRun } from './excluded.ts';
import { finite, list, type Json } from './jsonNumbers.ts';
import { followedJson, type PlanFollowed } from './plan.ts';
import type { Message } from '../result/result.ts';
import type { Unit } from '../units/unit.ts';
import type { Outcome } from '../statistics/outcome.ts';
import type { Band } from './band.ts';
import type { Run } from './run.ts';
import type { SpectrumValue } from './spectrum.ts';

export type { Outcome };

/** B against A in each band: B/A - 1 of the geometric means over runs of the metric's level. */
export interface ComparisonValue {
  readonly kind: 'comparison';
  /** How the interval was made, in words, or why there is none. */
  readonly method: string;
  /** Stable name of the method: `welch`, `paired`, `trend`, `one run each`, `too few runs`. */
  readonly methodCode: string;
  /** 0 to 1. */
  readonly confidence: number;
  readonly channel: string;
  /** In words: `band r.m.s.`, `vibration dose value`. */
  readonly metric: string;
  /** The metric's word in the language: `rms`, `vdv`, `p99_9`, `wk`; `transmissibility` of transfers. */
  readonly metricCode?: string;
  readonly a: ComparisonSide;
  readonly b: ComparisonSide;
  readonly rows: readonly ComparisonRow[];
  /** As a fraction, where one was asked for. */
  readonly margin?: number;
  /** The ratio of the densities bin by bin, where both sides have spectra of one frequency axis and three runs. */
  readonly ratio?: DensityRatio;
  /** The plan it was asked to follow, and where it does not. */
  readonly plan?: PlanFollowed;
  /** Whether the runs that the sheet leaves out were taken in all the same. */
  readonly includesExcluded?: boolean;
  /** Reasons outside the figures that forbid a verdict by any row; the message of each is a clause, as after `because`. */
  readonly guards?: readonly Message[];
}

/** B/A of the densities in each bin, with the interval of each bin by itself. */
export interface DensityRatio {
  /** Bin k is at k x spacing, in Hz. */
  readonly spacing: number;
  /** Of mean square, above 0. */
  readonly ratio: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** 0 to 1. */
  readonly confidence: number;
}

export interface ComparisonSide {
  readonly name: string;
  readonly runs: readonly Run[];
  /** The spectra behind the figures, for the overlay. */
  readonly spectrum: SpectrumValue | undefined;
  /** Place of each run in the order they were made in, where it is known of all runs of both sides. */
  readonly places?: readonly number[];
  /** Runs that the run sheet leaves out, taken in or not. */
  readonly excluded?: readonly ExcludedRun[];
}

export interface ComparisonRow {
  readonly band: Band;
  readonly unit: Unit;
  /** Geometric mean over runs of the band r.m.s. */
  readonly a: number;
  readonly b: number;
  /** Each run's band r.m.s., in the order of the side's runs. */
  readonly aRuns: readonly number[];
  readonly bRuns: readonly number[];
  /** B/A - 1 in percent and 20 log10(B/A). */
  readonly changePercent: number;
  readonly changeDb: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  readonly p: number | undefined;
  readonly pAdjusted: number | undefined;
  readonly outcome: Outcome;
  /** The outcome in one sentence for a reader without statistics. */
  readonly sentence: string;
  /** This band's share of A's mean square over all frequencies but 0, in percent. */
  readonly shareOfA: number | undefined;
  /** Named in advance, and so not adjusted for the other bands. */
  readonly primary?: boolean;
  /** Standard deviation of ln(level) from run to run, pooled over both sides: 0.04 is about 4 %. */
  readonly spread?: number;
  /** What the interval rules out, in percent of amplitude. */
  readonly excludes?: RuledOut;
  /** The interval that holds for all rows that are not primary at once (Bonferroni). */
  readonly simultaneous?: PercentInterval;
  /** Of a comparison with a margin: the interval (90 % for a confidence of 95 %) that had to lie within it, and p. */
  readonly equivalence?: PercentInterval & { readonly p: number };
  /** What the other possible methods say of the same figures. */
  readonly sensitivity?: readonly Sensitivity[];
  /** Reasons outside the figures that forbid a verdict by this row; the message of each is a clause. */
  readonly guards?: readonly Message[];
}

/** Changes beyond these are ruled out; each at least 0, in percent of amplitude. */
export interface RuledOut {
  readonly reductionPercent: number;
  readonly increasePercent: number;
  readonly eitherWayPercent: number;
}

export interface PercentInterval {
  readonly lowPercent: number;
  readonly highPercent: number;
}

export interface Sensitivity extends PercentInterval {
  /** `welch`, `pooled`, `paired` or `trend`. */
  readonly method: string;
  readonly changePercent: number;
  readonly p: number;
}

const own = ({ unit }: ComparisonRow): Unit => unit;

const lowHigh = (interval: PercentInterval | undefined): Json =>
  interval === undefined
    ? null
    : { low_percent: finite(interval.lowPercent), high_percent: finite(interval.highPercent) };

const ruledOut = (excludes: RuledOut | undefined): Json =>
  excludes === undefined
    ? null
    : {
        reduction_percent: finite(excludes.reductionPercent),
        increase_percent: finite(excludes.increasePercent),
        either_way_percent: finite(excludes.eitherWayPercent),
      };

const otherMethod = ({ method, changePercent, lowPercent, highPercent, p }: Sensitivity): Json => ({
  method,
  change_percent: finite(changePercent),
  low_percent: finite(lowPercent),
  high_percent: finite(highPercent),
  p: finite(p),
});

/** The figures of the sides and what makes the change. */
const figures: readonly Figure<ComparisonRow, ComparisonValue>[] = [
  { key: 'from', unit: 'Hz', read: ({ band }) => band.from },
  { key: 'to', unit: 'Hz', read: ({ band }) => band.to },
  {
    key: 'a',
    heading: ({ a }) => a.name,
    unit: own,
    read: (row) => row.a,
    doc: 'The geometric mean over the runs of A',
  },
  {
    key: 'b',
    heading: ({ b }) => b.name,
    unit: own,
    read: (row) => row.b,
    doc: 'The geometric mean over the runs of B',
  },
  { key: 'change', unit: '%', read: (row) => row.changePercent, doc: 'The change B/A − 1', dimension: 'ratio' },
  {
    key: 'low',
    unit: '%',
    read: (row) => row.lowPercent,
    doc: 'The lower end of the change’s interval',
    dimension: 'ratio',
  },
  {
    key: 'high',
    unit: '%',
    read: (row) => row.highPercent,
    doc: 'The upper end of the change’s interval',
    dimension: 'ratio',
  },
  {
    key: 'change_db',
    heading: 'change',
    unit: 'dB',
    read: (row) => row.changeDb,
    doc: 'The change in dB',
    dimension: 'level',
  },
  {
    key: 'ratio',
    read: (row) => 1 + row.changePercent / 100,
    doc: 'The ratio B/A',
    dimension: 'ratio',
    notIn: 'json and table',
  },
  { key: 'p', read: (row) => row.p },
  { key: 'p_adjusted', heading: 'p adjusted', read: (row) => row.pAdjusted },
  { key: 'outcome', read: ({ outcome }) => outcome },
  {
    key: 'share',
    jsonKey: 'share_of_a_percent',
    heading: ({ a }) => `share of ${a.name}`,
    unit: '%',
    read: (row) => row.shareOfA,
    doc: 'The share of A’s mean square',
    dimension: 'ratio',
  },
  {
    key: 'spread',
    unit: '%',
    read: ({ spread }) => inPercent(spread),
    doc: 'The scatter from run to run (standard deviation of ln level)',
    dimension: 'ratio',
  },
  {
    key: 'excludes',
    heading: 'ruled out beyond',
    unit: '%',
    read: ({ excludes }) => excludes?.eitherWayPercent,
    json: ({ excludes }) => ruledOut(excludes),
  },
];

export const comparisonKind = {
  kind: 'comparison',
  words: 'a comparison',
  caption: ({ a, b }) => `${b.name} against ${a.name}`,
  whole: [
    { key: 'method', read: ({ method }) => method },
    { key: 'method_code', read: ({ methodCode }) => methodCode },
    { key: 'confidence', read: ({ confidence }) => confidence },
    { key: 'margin_percent', json: ({ margin }) => inPercent(margin) },
    { key: 'unit', json: ({ rows }) => rows[0]?.unit.symbol ?? '' },
    { key: 'channel', read: ({ channel }) => channel },
    { key: 'metric', read: ({ metric }) => metric },
    { key: 'metric_code', read: ({ metricCode }) => metricCode ?? 'rms' },
    { key: 'a', read: ({ a }) => a.name },
    { key: 'b', read: ({ b }) => b.name },
    { key: 'a_runs', json: ({ a }) => a.runs.map(({ label }) => label) },
    { key: 'b_runs', json: ({ b }) => b.runs.map(({ label }) => label) },
    {
      key: 'order',
      json: ({ a, b }) => (a.places === undefined || b.places === undefined ? null : { a: a.places, b: b.places }),
    },
    { key: 'includes_excluded', read: ({ includesExcluded }) => includesExcluded === true },
    { key: 'excluded', json: (value) => excludedOfSides(value) },
    { key: 'plan', json: ({ plan }) => followedJson(plan) },
    { key: 'guards', json: ({ guards = [] }) => guards.map(({ message }) => message) },
  ],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['band', 'a band'],
    names: [],
    columns: [
      ...figures,
      { key: 'band', json: ({ band }) => band.label },
      { key: 'primary', json: ({ primary }) => primary === true },
      { key: 'simultaneous', json: ({ simultaneous }) => lowHigh(simultaneous) },
      { key: 'equivalence', json: ({ equivalence }) => lowHigh(equivalence) },
      { key: 'equivalence_p', json: ({ equivalence }) => finite(equivalence?.p) },
      { key: 'sensitivity', json: ({ sensitivity = [] }) => sensitivity.map(otherMethod) },
      { key: 'guards', json: ({ guards = [] }) => guards.map(({ message }) => message) },
      { key: 'sentence', json: ({ sentence }) => sentence },
      { key: 'a_each', json: ({ aRuns }) => list(aRuns) },
      { key: 'b_each', json: ({ bRuns }) => list(bRuns) },
    ],
    jsonFirst: ['from', 'to', 'band', 'primary', 'a', 'b', 'change', 'change_db'],
    // The band that was named beforehand speaks for the comparison.
    speakers: (rows) => {
      const primary = rows.filter((row) => row.primary === true);
      return primary.length === 1 ? primary : rows;
    },
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  drawn: 'frequency',
  runs: comparedRuns,
} satisfies DrawnDescription<ComparisonValue, ComparisonRow>;

/** The runs of both sides. */
export function comparedRuns({ a, b }: ComparisonValue): readonly Run[] {
  return [...a.runs, ...b.runs];
}

/** What JSON says of the runs that a sheet leaves out of either side. */
export function excludedOfSides({ a, b }: ComparisonValue): Json {
  const all = [a, b].flatMap(({ excluded = [] }) => excluded);
  return excludedJson(all.filter(({ path }, index) => all.findIndex((other) => other.path === path) === index));
}
