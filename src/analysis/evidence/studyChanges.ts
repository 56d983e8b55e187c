import { bareName } from '../../result/fileNames.ts';
import { success, type Result } from '../../result/result.ts';
import type { Estimate } from '../../statistics/estimate.ts';
import type { Band } from '../../values/band.ts';
import { comparedRuns, sidesOfRow, type ComparisonValue } from '../../values/comparison.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import type { EarlierChange, EarlierValue } from '../../values/earlier.ts';
import { refuse } from '../messages/earlier.ts';
import { clausesOfOrder } from './byOrder.ts';
import { log1pOf } from '../../numbers/logarithm.ts';

/** What can be pooled, with the name that it is bound to. */
export interface StudyArgument {
  readonly name: string | undefined;
  readonly value: ComparisonValue | EarlierValue;
}

/** A study with its changes over all its strata, one or more. */
export interface StudyOfChanges {
  readonly name: string;
  readonly changes: readonly StudyChange[];
  /** The recordings that were compared. */
  readonly recordings: readonly { readonly path: string; readonly sha256: string }[];
}

/** One change of a study, of this notebook or an earlier one. */
export interface StudyChange {
  readonly study: string;
  readonly baseline: string;
  readonly condition: string;
  readonly channel: string;
  readonly metric: string;
  readonly metricCode: string;
  readonly band: Band;
  readonly primary: boolean;
  readonly changePercent: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  /** Of ln(B/A); undefined where its runs allow no inference. */
  readonly estimate: Estimate | undefined;
  readonly guards: readonly string[];
  /** Runs of the baseline and of the condition; undefined where a record does not tell them. */
  readonly runs: readonly [number, number] | undefined;
}

/** The changes of each study that is given; a comparison's is called by its name in this notebook. Refuses single figures. */
export function studyChanges(given: readonly StudyArgument[]): Result<readonly StudyOfChanges[]> {
  const studies: StudyOfChanges[] = [];
  for (const { name = 'this study', value } of given) {
    if (value.kind === 'comparison') {
      const changes = value.rows
        .filter(({ stratum }) => stratum === undefined)
        .map((row) => ofComparison(name, row, value));
      studies.push({ name, changes, recordings: comparedRuns(value).map(({ file }) => file) });
      continue;
    }
    for (const study of value.studies) {
      const own = value.rows.filter((row) => row.study === study.name);
      const changes = own.flatMap(({ change }) => change ?? []);
      if (changes.length < own.length) return refuse('pool.figures', { study: study.name }, 'studies');
      // A label is a recording's name without folder and ending.
      const labels = changes.flatMap(({ runs }) => runs);
      const recordings = study.sources.filter(({ path }) => labels.includes(bareName(path)));
      const over = changes.filter(({ stratum }) => stratum === undefined);
      if (over.length > 0)
        studies.push({ name: study.name, changes: over.map((one) => ofEarlier(study.name, one)), recordings });
    }
  }
  return success(studies);
}

function ofComparison(study: string, row: ComparisonRow, value: ComparisonValue): StudyChange {
  const { standardError, df } = row;
  const { a, b } = sidesOfRow(value, row);
  return {
    study,
    ...{ baseline: row.baseline, condition: row.condition, channel: row.channel, band: row.band },
    metric: value.metric,
    metricCode: value.metricCode ?? 'rms',
    primary: row.primary === true,
    ...{ changePercent: row.changePercent, lowPercent: row.lowPercent, highPercent: row.highPercent },
    estimate: estimateOf(row.changePercent, standardError, df),
    guards: [
      ...[...(value.guards ?? []), ...(row.guards ?? [])].map(({ message }) => message),
      ...clausesOfOrder(row.sequence ?? value.sequence),
    ],
    runs: [a.runs.length, b.runs.length],
  };
}

function ofEarlier(study: string, change: EarlierChange): StudyChange {
  const { lowPercent, highPercent, standardError, df, changePercent } = change;
  const estimate = estimateOf(changePercent, standardError, df);
  return { ...change, study, lowPercent, highPercent, estimate, runs: change.sizes };
}

const estimateOf = (
  changePercent: number,
  standardError: number | undefined,
  df: number | undefined,
): Estimate | undefined =>
  standardError === undefined || df === undefined
    ? undefined
    : { difference: log1pOf(changePercent / 100), standardError, df };
