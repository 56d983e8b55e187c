import { decibelsPerNeper } from '../numbers/logarithm.ts';
import type { Cells } from './cells.ts';
import { detail, field, figure, inPercent } from './columns.ts';
import type { DrawnDescription, Figure } from './description.ts';
import { excludedJson } from './excluded.ts';
import { interactionDetails, interactionFigures } from './interaction.ts';
import { finite, list, type Json } from './jsonNumbers.ts';
import { adjustmentJson, followedJson, type PlanFollowed, type PlannedAdjustment } from './plan.ts';
import type { Message } from '../result/result.ts';
import { counted, listed } from '../result/words.ts';
import { formatNumber } from '../units/format.ts';
import { interval, signed } from './number.ts';
import { inShort } from './short.ts';
import {
  heldAgainst,
  outcomeWord,
  ruledOut,
  type ComparedStrata,
  type ComparisonRow,
  type ComparisonSide,
  sensorJson,
  type DensityRatio,
} from './comparisonParts.ts';
import { decibelsOf, levelIn, type LevelReference } from './decibels.ts';
import { dimensionOf } from '../units/dimension.ts';
import type { UncertaintyParts } from '../units/uncertainty.ts';
import type { Unit } from '../units/unit.ts';
import type { Sequence } from '../statistics/sequence.ts';
import { rowParts } from './rowParts.ts';
import { isRowWithheld } from './withheld.ts';
import { comparedLevels } from './comparedLevels.ts';
import { comparedLevelsIn, comparedSideIn } from './comparedIn.ts';
import { rowsIn } from './scaling.ts';
import type { Run } from './run.ts';

/** B against A in each band: B/A - 1 of the geometric means over runs of the metric's level. */
export interface ComparisonValue {
  readonly kind: 'comparison';
  /** How the interval was made, in words, or why there is none. */
  readonly method: string;
  /** Stable name of the method: `welch`, `paired`, `days`, `trend`, `curve`, `one run each`, `no inference`. */
  readonly methodCode: string;
  /** 0 to 1. */
  readonly confidence: number;
  /** How many rows hold together at the confidence, the primary one apart; 1 unless said. */
  readonly family?: number;
  /** How the runs of both sides follow one another: `apart` withholds every verdict. */
  readonly sequence?: Sequence;
  /** So many times the variance of an interleaved order, with a steady drift taken out; where the order is known. */
  readonly varianceInflation?: number;
  readonly channel: string;
  /** In words, with its quantity: `acceleration r.m.s.`, `vibration dose value`. */
  readonly metric: string;
  /** The metric's word in the language: `rms`, `vdv`, `p99_9`, `wk`; `transmissibility` of transfers. */
  readonly metricCode?: string;
  /** The baseline, and what is held against it. */
  readonly a: ComparisonSide;
  readonly b: ComparisonSide;
  /** Further conditions. */
  readonly others?: readonly ComparisonSide[];
  /** Runs made in between, of no condition compared, that tell of a drift. */
  readonly reference?: ComparisonSide;
  /** What runs are compared within. */
  readonly strata?: ComparedStrata;
  /** What was taken out of the levels. */
  readonly adjusted?: readonly PlannedAdjustment[];
  /** Whether every two conditions are compared, and not only each with the baseline. */
  readonly isAllPairs?: boolean;
  /** Whether one scatter stands for all runs. */
  readonly isPooled?: boolean;
  readonly rows: readonly ComparisonRow[];
  /** As a fraction, where one was asked for. */
  readonly margin?: number;
  /** The ratio of the densities bin by bin, where both sides have spectra of one frequency axis and four runs. */
  readonly ratio?: DensityRatio;
  /** The plan it was asked to follow, and where it does not. */
  readonly plan?: PlanFollowed;
  /** What the levels of both sides are told over in dB, where they are. */
  readonly level?: LevelReference;
  /** Whether the runs that the sheet leaves out were taken in all the same. */
  readonly includesExcluded?: boolean;
  /** Reasons outside the figures that forbid a verdict by any row; the message of each is a clause, as after `because`. */
  readonly guards?: readonly Message[];
}

/** The sides that are compared, the baseline first. */
export const sidesIn = ({ a, b, others = [] }: ComparisonValue): readonly ComparisonSide[] => [a, b, ...others];

/** A side with the number of its runs: `foam (3 runs)`. */
export const sideWords = ({ name, runs }: ComparisonSide): string => `${name} (${counted(runs.length, 'run')})`;

/** Both sides of a row, with the runs of its stratum alone. */
export function sidesOfRow(
  value: ComparisonValue,
  { baseline, condition, stratum }: ComparisonRow,
): { readonly a: ComparisonSide; readonly b: ComparisonSide } {
  const sides = sidesIn(value);
  const b = sides.findLast(({ name }) => name === condition) ?? value.b;
  const a = sides.find(({ name }) => name === baseline) ?? value.a;
  return { a: within(a, stratum), b: within(b, stratum) };
}

function within(side: ComparisonSide, stratum: string | undefined): ComparisonSide {
  const { strata, runs, places } = side;
  if (stratum === undefined || strata === undefined) return side;
  const isOf = (_: unknown, index: number): boolean => strata[index] === stratum;
  return { ...side, runs: runs.filter(isOf), ...(places === undefined ? {} : { places: places.filter(isOf) }) };
}

/** Whether the rows of a value are told apart by more than their bands. */
export const hasSeveral = (value: ComparisonValue): boolean =>
  hasConditions(value) || value.strata !== undefined || hasAxes(value);

/** Whether anything is inferred: of too few runs there is no interval and no p. */
export const isInferred = ({ rows }: ComparisonValue): boolean =>
  rows.some(({ lowPercent }) => lowPercent !== undefined);

/** Whether there are more than two conditions. */
export const hasConditions = ({ others = [] }: ComparisonValue): boolean => others.length > 0;

/** Whether it is of more than one channel. */
export const hasAxes = ({ rows }: ComparisonValue): boolean => new Set(rows.map(({ channel }) => channel)).size > 1;

/** Whether a metric, by its word in the language, is of the whole signal, so that it has no bands. */
export const isOfSignal = (metric = 'rms'): boolean => metric === 'vdv' || metric.startsWith('p99');

/** What is held against what: the condition alone where all are held against one baseline. */
export const changeName = ({ isAllPairs }: ComparisonValue, { baseline, condition }: ComparisonRow): string =>
  isAllPairs === true ? `${condition} against ${baseline}` : condition;

/** What a row is called by beside its band, each with its heading: its sides, stratum and axis, where there are several. */
export function placesOfRow(value: ComparisonValue, row: ComparisonRow): readonly (readonly [string, string])[] {
  const { stratum = 'all', channel } = row;
  return [
    ...(hasConditions(value) ? [['Condition', changeName(value, row)] as const] : []),
    ...(value.strata === undefined ? [] : [[value.strata.columns.join(', '), stratum] as const]),
    ...(hasAxes(value) ? [['Axis', channel] as const] : []),
  ];
}

/** The sides and the first changes. */
function comparisonInShort(value: ComparisonValue): string {
  const { metric, metricCode, rows } = value;
  const [baseline, ...conditions] = sidesIn(value).map(sideWords);
  const shown = rows.slice(0, 3).map((row) => {
    const { band, changePercent, lowPercent, highPercent } = row;
    const places = placesOfRow(value, row).map(([, name]) => name);
    const of = isOfSignal(metricCode) ? 'whole signal' : `${formatNumber(band.from)} to ${formatNumber(band.to)} Hz`;
    const { value: change, low, high } = interval(changePercent, lowPercent, highPercent);
    const limits = lowPercent === undefined || highPercent === undefined ? '' : ` (${signed(low)} to ${signed(high)})`;
    return `${[...places, of].join(', ')}: ${signed(change)}${limits} %`;
  });
  const rest = rows.length > shown.length ? `and ${rows.length - shown.length} more` : undefined;
  return inShort(`${listed(conditions)} against ${baseline}`, metric, ...shown, rest);
}

const own = ({ unit }: ComparisonRow): Unit => unit;

/** What a change's slope times ln(B/A) has of uncertainty: that of its row; nobody knows it where a verdict is kept back. */
export function changeParts(row: ComparisonRow, value: ComparisonValue, slope: number): UncertaintyParts {
  const { a, b } = sidesOfRow(value, row);
  // What keeps a verdict back, such as an order that a drift would look the same in, is in no standard error.
  const known = isRowWithheld(row, value) ? { ...row, standardError: NaN } : row;
  return rowParts(known, value.metric, [...a.runs, ...b.runs], slope);
}

/** The level of a side in dB over the reference, where one was asked for. */
function sideLevel(
  key: string,
  of: (row: ComparisonRow) => number,
  heading: (value: ComparisonValue) => string,
): Figure<ComparisonRow, ComparisonValue> {
  const read = (row: ComparisonRow, { level }: ComparisonValue): number | undefined => {
    const scale = level && decibelsOf(row.unit, level);
    return scale && levelIn(scale, of(row));
  };
  const unit = ({ unit: own }: ComparisonRow, { level }: ComparisonValue): Unit => ({
    symbol: (level && decibelsOf(own, level)?.symbol) ?? 'dB',
    dimension: dimensionOf('level'),
    factor: 1,
  });
  return figure(key, unit, read, {
    heading,
    inTableOf: ({ level }) => level !== undefined,
    optional: true,
    json: (row, value) => (value.level === undefined ? undefined : finite(read(row, value))),
  });
}

/** What stands over the levels of A and of B: their names; of several conditions each row names its own. */
const headingOfA = (value: ComparisonValue): string => (hasConditions(value) ? 'baseline' : value.a.name);
const headingOfB = (value: ComparisonValue): string => (hasConditions(value) ? 'condition' : value.b.name);

/** The figures of the sides and what makes the change. */
const figures: readonly Figure<ComparisonRow, ComparisonValue>[] = [
  figure('from', 'Hz', ({ band }) => band.from),
  figure('to', 'Hz', ({ band }) => band.to),
  field('a', own, (row) => row.a, 'The geometric mean over the runs of A', {
    heading: headingOfA,
    inTableOf: ({ level }) => level === undefined,
  }),
  field('b', own, (row) => row.b, 'The geometric mean over the runs of B', {
    heading: headingOfB,
    inTableOf: ({ level }) => level === undefined,
  }),
  sideLevel('a_level_db', ({ a }) => a, headingOfA),
  sideLevel('b_level_db', ({ b }) => b, headingOfB),
  field('change', '%', (row) => row.changePercent, 'The change B/A − 1', {
    parts: (row, value) => changeParts(row, value, 100 + row.changePercent),
  }),
  field('low', '%', (row) => row.lowPercent, 'The lower end of the change’s interval', { inTableOf: isInferred }),
  field('high', '%', (row) => row.highPercent, 'The upper end of the change’s interval', { inTableOf: isInferred }),
  field('change_db', 'dB', (row) => row.changeDb, 'The change in dB', {
    heading: 'change',
    parts: (row, value) => changeParts(row, value, decibelsPerNeper),
  }),
  field('ratio', '', (row) => 1 + row.changePercent / 100, 'The ratio B/A', {
    notIn: 'json and table',
    parts: (row, value) => changeParts(row, value, 1 + row.changePercent / 100),
  }),
  figure('p', '', (row) => row.p, { inTableOf: isInferred }),
  figure('p_adjusted', '', (row) => row.pAdjusted, { heading: 'p adjusted', inTableOf: isInferred }),
  figure('outcome', '', ({ outcome }) => outcome, { inWords: ({ outcome }, value) => outcomeWord(outcome, value) }),
  field('share', '%', (row) => row.shareOfA, 'The share of A’s mean square', {
    jsonKey: 'share_of_a_percent',
    heading: (value) => `share of ${headingOfA(value)}`,
  }),
  field(
    'spread',
    '%',
    ({ spread }) => inPercent(spread),
    'The scatter from run to run (standard deviation of ln level), without what the method takes out',
    { inTableOf: ({ rows }) => rows.some(({ spread }) => spread !== undefined) },
  ),
  ...interactionFigures,
  figure('excludes', '%', ({ excludes }) => excludes?.eitherWayPercent, {
    heading: 'ruled out beyond',
    inTableOf: ({ rows }) => rows.some(({ excludes }) => excludes !== undefined),
    json: ({ excludes }) => ruledOut(excludes),
  }),
];

export const comparisonKind = {
  kind: 'comparison',
  words: 'a comparison',
  summary: comparisonInShort,
  caption: ({ a, b, others = [] }) => `${listed([b, ...others].map(({ name }) => name))} against ${a.name}`,
  whole: [
    figure('method', '', ({ method }) => method),
    figure('method_code', '', ({ methodCode }) => methodCode),
    figure('confidence', '', ({ confidence }) => confidence),
    figure('family', '', ({ family = 1 }) => family),
    figure('sequence', '', ({ sequence }) => sequence),
    figure('variance_inflation', '', ({ varianceInflation }) => varianceInflation),
    detail('margin_percent', ({ margin }) => inPercent(margin), 'number'),
    detail('unit', ({ rows }) => rows[0]?.unit.symbol ?? '', 'text'),
    detail('level_reference', ({ rows, level }) => level && rows[0] && decibelsOf(rows[0].unit, level)?.symbol, 'text'),
    figure('channel', '', ({ channel }) => channel),
    figure('metric', '', ({ metric }) => metric),
    figure('metric_code', '', ({ metricCode }) => metricCode ?? 'rms'),
    figure('a', '', ({ a }) => a.name),
    figure('b', '', ({ b, others = [] }) => [b, ...others].map(({ name }) => name).join(', ')),
    detail('baseline', ({ a }) => a.name, 'text'),
    detail('conditions', ({ b, others = [] }) => [b, ...others].map(({ name }) => name), 'texts'),
    detail('all_pairs', ({ isAllPairs }) => isAllPairs, 'flag'),
    detail('pooled', ({ isPooled }) => isPooled, 'flag'),
    detail('strata', ({ strata }) => strata && { columns: strata.columns, names: strata.names }, 'parts'),
    detail('adjusted', ({ adjusted }) => adjusted?.map(adjustmentJson), 'rows'),
    detail('reference_runs', ({ reference }) => reference?.runs.map(({ label }) => label), 'texts'),
    detail('a_runs', ({ a }) => a.runs.map(({ label }) => label), 'texts'),
    detail(
      'b_runs',
      ({ b, others = [] }) => [b, ...others].flatMap(({ runs }) => runs.map(({ label }) => label)),
      'texts',
    ),
    detail('sides', sidesJson, 'rows'),
    detail(
      'order',
      ({ a, b }) => (a.places === undefined || b.places === undefined ? null : { a: a.places, b: b.places }),
      'parts',
    ),
    figure('includes_excluded', '', ({ includesExcluded }) => includesExcluded === true),
    detail('excluded', (value) => excludedOfSides(value), 'rows'),
    detail('plan', ({ plan }) => followedJson(plan), 'parts'),
    detail('guards', ({ guards = [] }) => guards.map(({ message }) => message), 'texts'),
  ],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['band', 'a band'],
    names: [
      figure('baseline', '', ({ baseline }) => baseline, { inTableOf: ({ isAllPairs }) => isAllPairs === true }),
      figure('condition', '', ({ condition }) => condition, { inTableOf: hasConditions }),
      figure('stratum', '', ({ stratum = 'all' }) => stratum, { inTableOf: ({ strata }) => strata !== undefined }),
      figure('axis', '', ({ channel }) => channel, { inTableOf: hasAxes }),
    ],
    columns: [
      ...figures,
      detail('band', ({ band }) => band.label, 'text'),
      detail('primary', ({ primary }) => primary === true, 'flag'),
      detail('family', ({ family }) => (Number.isFinite(family) ? family : undefined), 'number'),
      detail('equivalence', heldAgainst, 'parts'),
      detail('guards', ({ guards = [] }) => guards.map(({ message }) => message), 'texts'),
      detail('sentence', ({ sentence }) => sentence, 'text'),
      ...interactionDetails,
      detail('standard_error', ({ standardError }) => standardError, 'number'),
      detail('degrees_of_freedom', ({ df }) => df, 'number'),
      detail('calibration', ({ sensors }) => sensors?.map(sensorJson), 'rows'),
      detail('a_each', ({ aRuns }) => list(aRuns), 'numbers'),
      detail('b_each', ({ bRuns }) => list(bRuns), 'numbers'),
    ],
    jsonFirst: ['from', 'to', 'band', 'primary', 'a', 'b', 'change', 'change_db'],
    // The band that the question is about speaks for the comparison.
    speakers: (rows) => {
      const primary = rows.filter((row) => row.primary === true);
      if (primary.length === 1) return primary;
      // Over all strata, where one change alone is told of them.
      const over = rows.filter(({ stratum }) => stratum === undefined);
      return over.length === 1 ? over : rows;
    },
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  savedBeside: (value) => [{ of: 'runs', cells: levelsOfRuns(value) }],
  inUnit: comparisonIn,
  drawn: 'frequency',
  runs: comparedRuns,
} satisfies DrawnDescription<ComparisonValue, ComparisonRow>;

/** Levels and spectra in a unit that is asked for; the changes are ratios and stay. Undefined where no row can be told in it. */
function comparisonIn(value: ComparisonValue, asked: Unit): ComparisonValue | undefined {
  const rows = rowsIn(value.rows, asked, own, comparedLevelsIn);
  if (rows === undefined) return undefined;
  const sideIn = (side: ComparisonSide): ComparisonSide => comparedSideIn(side, asked);
  const { a, b, others, reference } = value;
  return {
    ...value,
    rows,
    a: sideIn(a),
    b: sideIn(b),
    ...(others === undefined ? {} : { others: others.map(sideIn) }),
    ...(reference === undefined ? {} : { reference: sideIn(reference) }),
  };
}

/** The runs of all sides. */
export function comparedRuns(value: ComparisonValue): readonly Run[] {
  return [...sidesIn(value), ...(value.reference === undefined ? [] : [value.reference])].flatMap(({ runs }) => runs);
}

/** The runs of each side, where there are more than two or strata; nothing else. */
function sidesJson(value: ComparisonValue): Json | undefined {
  if (!hasConditions(value) && value.strata === undefined) return undefined;
  return sidesIn(value).map(({ name, runs, places, strata }) => ({
    name,
    runs: runs.map(({ label }) => label),
    order: places ?? null,
    strata: strata ?? null,
  }));
}

/** What JSON says of the runs that a sheet leaves out of any side. */
export function excludedOfSides(value: ComparisonValue): Json {
  const all = sidesIn(value).flatMap(({ excluded = [] }) => excluded);
  return excludedJson(all.filter(({ path }, index) => all.findIndex((other) => other.path === path) === index));
}

/** The level of each run of every side. */
const levelsOfRuns = (value: ComparisonValue): Cells =>
  comparedLevels(
    value.rows.map((row) => ({ row, ...sidesOfRow(value, row) })),
    {
      channel: value.channel,
      metric: value.metric,
      hasStrata: value.strata !== undefined,
      hasAxes: hasAxes(value),
    },
  );
