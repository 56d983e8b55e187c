import { decibelsPerNeper } from '../../numbers/logarithm.ts';
import { success, type Answer, type Result, type Warning, answered } from '../../result/result.ts';
import { equallyWeighted } from '../../statistics/equalWeights.ts';
import type { Estimate } from '../../statistics/estimate.ts';
import { statement } from '../../statistics/interval.ts';
import { shownDirection } from '../../statistics/outcome.ts';
import { isOfSignal } from '../../values/comparison.ts';
import { hertzSpan } from '../../values/number.ts';
import type { PooledRow, PooledStudy, PooledValue } from '../../values/pooled.ts';
import { refuse, tell } from '../messages/earlier.ts';
import { studyChanges, type StudyChange, type StudyOfChanges } from './studyChanges.ts';
import type { StudyArgument } from './studyChanges.ts';
import { expOf } from '../../numbers/exponential.ts';

/**
 * The changes of several studies as one: those that all of them have, each study a stratum with equal weight. Refuses fewer
 * than two studies, studies of different measures or of the same recordings, and a change without a standard error.
 * @param given the studies, each a comparison of this notebook or what records say
 * @param confidence 0 to 1; of the interval, for all changes together that are not the primary one of every study
 */
export function pooled(given: readonly StudyArgument[], confidence: number): Answer<PooledValue> {
  const found = studyChanges(given);
  if (!found.ok) return found;
  const studies = found.value;
  const names = studies.map(({ name }) => name);
  if (studies.length < 2) return refuse('pool.few', { studies: names }, 'studies');
  const twice = names.find((name, index) => names.indexOf(name) < index);
  if (twice !== undefined) return refuse('pool.twice', { study: twice }, 'studies');
  const alike = whyNotAlike(studies);
  if (!alike.ok) return alike;
  const sets = matched(studies);
  if (sets.length === 0)
    return refuse(
      'pool.none',
      { studies: names, changes: studies.map(({ changes }) => changes.map(called)) },
      'studies',
    );
  const bare = sets.flat().find(({ estimate }) => estimate === undefined);
  if (bare !== undefined) return refuse('pool.inference', { study: bare.study, change: called(bare) }, 'studies');
  const [{ metric, metricCode }] = studies[0].changes;
  const rows = rowsOf(sets, confidence);
  return answered({ kind: 'pooled', studies: names, metric, metricCode, confidence, rows }, warnings(studies, sets));
}

/** What a change is called in a message. */
const called = ({ condition, channel, band, metricCode }: StudyChange): string =>
  [condition, channel, ...(isOfSignal(metricCode) ? [] : [hertzSpan(band.from, band.to)])].join(', ');

function whyNotAlike(studies: readonly StudyOfChanges[]): Result<undefined> {
  const [first, ...others] = studies;
  for (const other of others) {
    const metrics = [first, other].map(({ changes }) => changes[0].metricCode);
    if (metrics[0] === metrics[1]) continue;
    const words = [first, other].map(({ changes }) => changes[0].metric);
    return refuse('pool.metric', { studies: [first.name, other.name], metrics: words }, 'studies');
  }
  for (const [index, one] of studies.entries()) {
    for (const other of studies.slice(index + 1)) {
      const shared = one.recordings.find(({ sha256 }) => other.recordings.some((file) => file.sha256 === sha256));
      if (shared !== undefined)
        return refuse('pool.shared', { studies: [one.name, other.name], file: shared.path }, 'studies');
    }
  }
  return success(undefined);
}

/** The changes that every study has, in the order of the first: one of each study. */
function matched(studies: readonly StudyOfChanges[]): StudyChange[][] {
  const [first, ...others] = studies;
  // Where each study has one condition, it is the same one, whatever its name.
  const isOne = studies.every(({ changes }) => new Set(changes.map(({ condition }) => condition)).size === 1);
  return first.changes.flatMap((change) => {
    const same = others.flatMap(({ changes }) => changes.find((other) => isSame(change, other, isOne)) ?? []);
    return same.length === others.length ? [[change, ...same]] : [];
  });
}

const isSame = (one: StudyChange, other: StudyChange, isOne: boolean): boolean =>
  one.channel === other.channel &&
  isEqual(one.band.from, other.band.from) &&
  isEqual(one.band.to, other.band.to) &&
  (isOne || (one.condition === other.condition && one.baseline === other.baseline));

/** Records hold 6 significant digits. */
const isEqual = (one: number, other: number): boolean => one === other || Math.abs(one - other) <= 1e-5 * Math.abs(one);

function rowsOf(sets: readonly (readonly StudyChange[])[], confidence: number): PooledRow[] {
  const isPrimary = (set: readonly StudyChange[]): boolean => set.every(({ primary }) => primary);
  const primaries = sets.filter(isPrimary).length;
  return sets.map((set) => {
    const primary = isPrimary(set);
    return rowOf(set, { confidence, primary, family: primary ? primaries : sets.length - primaries });
  });
}

function rowOf(
  set: readonly StudyChange[],
  { confidence, primary, family }: { confidence: number; primary: boolean; family: number },
): PooledRow {
  const [{ band, channel, metric, metricCode }] = set;
  const estimate = equallyWeighted(set.flatMap((one) => one.estimate ?? []));
  const { interval, p } = statement(estimate, confidence, family);
  const guards = set.flatMap(({ study, guards: own }) =>
    own.map((why) => tell('result.pooled-guard', { study, why }).message),
  );
  const outcome: PooledRow['outcome'] = guards.length > 0 ? 'not shown' : (shownDirection(interval) ?? 'not shown');
  const [baseline, condition] = (['baseline', 'condition'] as const).map((side) =>
    [...new Set(set.map((one) => one[side]))].join(' / '),
  );
  const shared = { ...percents(estimate, interval), ...{ baseline, condition, channel, outcome, family } };
  const studies = set.map((one): PooledStudy & { readonly runs: StudyChange['runs'] } => ({
    ...{ name: one.study, runs: one.runs },
    ...{ changePercent: one.changePercent, lowPercent: one.lowPercent, highPercent: one.highPercent },
    standardError: one.estimate?.standardError ?? NaN,
    df: one.estimate?.df ?? NaN,
  }));
  const facts = { ...shared, metric, band: isOfSignal(metricCode) ? undefined : band, confidence, studies };
  return {
    ...shared,
    band,
    primary,
    changeDb: decibelsPerNeper * estimate.difference,
    standardError: estimate.standardError,
    df: estimate.df,
    p,
    studies,
    guards,
    sentence: tell('result.pooled', { ...facts, guards }).message,
  };
}

const percents = (
  { difference }: Estimate,
  { low, high }: { low: number; high: number },
): Pick<PooledRow, 'changePercent' | 'lowPercent' | 'highPercent'> => ({
  changePercent: 100 * (expOf(difference) - 1),
  lowPercent: 100 * (low - 1),
  highPercent: 100 * (high - 1),
});

function warnings(studies: readonly StudyOfChanges[], sets: readonly (readonly StudyChange[])[]): Warning[] {
  const names = [...new Set(sets.flat().map(({ baseline, condition }) => `${condition} against ${baseline}`))];
  const isRenamed = sets.some(
    (set) => new Set(set.map(({ condition, baseline }) => `${baseline} ${condition}`)).size > 1,
  );
  const left = studies.flatMap(({ name: study, changes }) => {
    const not = changes.filter((change) => !sets.some((set) => set.includes(change)));
    return not.length === 0 ? [] : [tell('pool.left', { study, changes: not.map(called) })];
  });
  return [...(isRenamed ? [tell('pool.names', { conditions: names })] : []), ...left];
}
