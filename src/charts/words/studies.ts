import { listed } from '../../result/words.ts';
import type { ChartSubject } from '../../values/chart.ts';
import { isOfSignal, type ComparisonValue } from '../../values/comparison.ts';
import { outcomeWord, type ComparisonRow } from '../../values/comparisonParts.ts';
import type { Band } from '../../values/band.ts';
import type { EarlierValue } from '../../values/earlier.ts';
import type { PooledValue } from '../../values/pooled.ts';
import { noFigure, percent } from '../../values/number.ts';
import { bandOfRow, changeText } from './compared.ts';
import { bandName, distinct } from './names.ts';

// What is said of changes of several studies beside each other.

/** A change of one study, as the picture of several has it. */
export interface ForestRow {
  readonly study: string;
  readonly baseline: string;
  readonly condition: string;
  readonly channel: string;
  readonly stratum: string | undefined;
  readonly metric: string;
  /** In words. */
  readonly band: string;
  readonly changePercent: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  /** Undefined where that stands with its study. */
  readonly confidence: number | undefined;
  /** Undefined of what is a part of another row, and no answer itself. */
  readonly outcome: ComparisonRow['outcome'] | undefined;
  readonly margin: number | undefined;
}

const bandWords = (metricCode: string, band: Band): string =>
  isOfSignal(metricCode) ? 'whole signal' : bandName({ from: band.from, to: band.to });

/** The changes of what is drawn, study by study; none of what compares nothing. */
export function forestRows({ name, value }: ChartSubject): ForestRow[] {
  if (value.kind === 'comparison') return ofComparison(value, name ?? 'this study');
  if (value.kind === 'earlier') return ofEarlier(value);
  return value.kind === 'pooled' ? ofPooled(value, name) : [];
}

const ofComparison = (value: ComparisonValue, study: string): ForestRow[] =>
  value.rows.map((row) => ({
    study,
    ...{ baseline: row.baseline, condition: row.condition, channel: row.channel, stratum: row.stratum },
    metric: value.metric,
    band: bandOfRow(value, row),
    ...{ changePercent: row.changePercent, lowPercent: row.lowPercent, highPercent: row.highPercent },
    ...{ confidence: value.confidence, outcome: row.outcome, margin: value.margin },
  }));

const ofEarlier = ({ rows }: EarlierValue): ForestRow[] =>
  rows.flatMap(({ study, change }) =>
    change === undefined
      ? []
      : [
          {
            study,
            ...{ baseline: change.baseline, condition: change.condition, channel: change.channel },
            ...{ stratum: change.stratum, metric: change.metric, margin: change.margin },
            band: bandWords(change.metricCode, change.band),
            ...{ changePercent: change.changePercent, outcome: change.outcome, confidence: change.confidence },
            ...{ lowPercent: change.lowPercent, highPercent: change.highPercent },
          },
        ],
  );

const ofPooled = (
  { rows, studies, confidence, metric, metricCode }: PooledValue,
  name: string | undefined,
): ForestRow[] =>
  rows.map((row) => ({
    study: name ?? `${listed(studies)} pooled`,
    ...{ baseline: row.baseline, condition: row.condition, channel: row.channel, stratum: undefined },
    metric,
    band: bandWords(metricCode, row.band),
    ...{ changePercent: row.changePercent, lowPercent: row.lowPercent, highPercent: row.highPercent },
    ...{ confidence, outcome: row.outcome, margin: undefined },
  }));

type Named = 'metric' | 'condition' | 'baseline' | 'channel';
const isOne = (rows: readonly ForestRow[], key: Named): boolean => new Set(rows.map((row) => row[key])).size === 1;

/** What a change is of: its band, and what else tells it from others of the picture. */
export function forestPlace(row: ForestRow, rows: readonly ForestRow[]): string {
  const sides = isOne(rows, 'baseline')
    ? isOne(rows, 'condition')
      ? []
      : [row.condition]
    : [`${row.condition} against ${row.baseline}`];
  const parts = [
    row.band,
    ...sides,
    ...(row.stratum === undefined ? [] : [row.stratum]),
    ...(isOne(rows, 'channel') ? [] : [row.channel]),
    ...(isOne(rows, 'metric') ? [] : [row.metric]),
  ];
  return parts.join(', ');
}

/** `−14.2 % (−19.1 to −9.0), lower`. */
export const forestText = (row: ForestRow): string =>
  row.outcome === undefined ? changeText(row) : `${changeText(row)}, ${forestOutcome(row)}`;

/** The outcome of a change in one word, or a dash. */
export const forestOutcome = ({ outcome, margin }: ForestRow): string =>
  outcome === undefined ? noFigure : outcomeWord(outcome, margin === undefined ? {} : { margin });

const studyNames = (rows: readonly ForestRow[]): string[] => distinct(rows.map(({ study }) => study));

export function forestTitle(rows: readonly ForestRow[]): string {
  const metric = isOne(rows, 'metric') ? `Change of ${rows[0].metric}` : 'Changes';
  const sides =
    isOne(rows, 'baseline') && isOne(rows, 'condition') ? ` from ${rows[0].baseline} to ${rows[0].condition}` : '';
  return `${metric}${sides}: ${listed(studyNames(rows), 'and', 4)}`;
}

/** How to read the marks. @param isCut whether an interval is wider than the picture */
export function forestSubtitle(rows: readonly ForestRow[], isCut: boolean): string {
  return [
    'Each study by its shape; they stand beside each other and are not pooled unless it says so.',
    `Line: ${forestIntervalHeading(rows)}, as its study states it.`,
    ...(isCut ? ['An interval that reaches the edge goes on beyond it.'] : []),
  ].join(' ');
}

export const forestAxis = (rows: readonly ForestRow[]): string =>
  isOne(rows, 'metric') ? `Change of ${rows[0].metric} (%)` : 'Change (%)';

export function forestDescription(rows: readonly ForestRow[]): string {
  const changes = rows.map((row) => `${forestPlace(row, rows)}, ${row.study}: ${forestText(row)}.`);
  return `Changes of ${listed(studyNames(rows))}. ${changes.join(' ')}`;
}

/** Over the column of intervals. */
export const forestIntervalHeading = (rows: readonly ForestRow[]): string =>
  `${distinct(rows.flatMap(({ confidence }) => (confidence === undefined ? [] : [percent(confidence)]))).join(' or ')} interval`;

/** Where the numbers come from. */
export const earlierAside = ({ studies }: EarlierValue): string =>
  studies
    .map(({ name, path, notebook, tool }) => `${name}: as recorded in ${path}, of ${notebook}, by ${tool}.`)
    .join('\n');

export const earlierCaption = ({ studies }: EarlierValue): string =>
  `Changes as recorded, ${listed(studies.map(({ name }) => name))}`;

export const pooledCaption = ({ metric, studies }: PooledValue): string =>
  `Change of ${metric}: ${listed(studies)}, and pooled with equal weights`;
