import type { Message } from '../../result/result.ts';
import type { Comparison, ComparisonRow as Found, Inference, Levels } from '../../statistics/comparison.ts';
import type { RatioInterval } from '../../statistics/estimate.ts';
import type { Unit } from '../../units/unit.ts';
import type { Band } from '../../values/band.ts';
import type { ComparisonRow, PercentInterval, Sensitivity } from '../../values/comparison.ts';
import { tell, type ResultPlace } from '../messages/comparison.ts';

/** What a row is told with, beside what statistics found. */
export interface RowFacts {
  readonly band: Band;
  readonly unit: Unit;
  readonly levels: Levels;
  /** Share of A's mean square that the band holds, in percent. */
  readonly shareOfA: number | undefined;
  /** Reasons against a verdict by this row, as clauses. */
  readonly guards: readonly Message[];
  readonly place: Omit<ResultPlace, 'changePercent'>;
}

/** A row of a comparison as its value has it, with its sentence. */
export function comparisonRow(facts: RowFacts, found: Found, comparison: Comparison): ComparisonRow {
  const { inference, block } = found;
  const { band, unit, levels, shareOfA, guards } = facts;
  const interval = inference?.interval ?? block;
  return {
    band,
    unit,
    // Levels above 0 have all of these.
    a: found.a ?? 0,
    b: found.b ?? 0,
    aRuns: levels.a,
    bRuns: levels.b,
    changePercent: found.changePercent ?? 0,
    changeDb: found.changeDb ?? 0,
    ...(interval === undefined ? { lowPercent: undefined, highPercent: undefined } : percents(interval)),
    p: inference?.p,
    pAdjusted: inference?.pAdjusted,
    outcome: found.outcome,
    shareOfA,
    sentence: sentenceOf(facts, found, comparison),
    ...(found.primary ? { primary: true } : {}),
    ...(found.spread === undefined ? {} : { spread: found.spread }),
    ...(inference === undefined ? {} : inferred(inference)),
    ...(found.sensitivity.length === 0 ? {} : { sensitivity: sensitivityOf(found) }),
    ...(guards.length === 0 ? {} : { guards }),
  };
}

const percents = ({ low, high }: RatioInterval): PercentInterval => ({
  lowPercent: 100 * (low - 1),
  highPercent: 100 * (high - 1),
});

const inferred = ({
  excluded,
  simultaneous,
  equivalence,
}: Inference): Pick<ComparisonRow, 'excludes' | 'simultaneous' | 'equivalence'> => ({
  excludes: excluded,
  simultaneous: percents(simultaneous),
  ...(equivalence === undefined ? {} : { equivalence: { ...percents(equivalence.interval), p: equivalence.p } }),
});

const sensitivityOf = ({ sensitivity }: Found): Sensitivity[] =>
  sensitivity.map(({ method, ratio, interval, p }) => ({
    method,
    changePercent: 100 * (ratio - 1),
    ...percents(interval),
    p,
  }));

/** A row's result in one sentence for a reader without statistics. */
function sentenceOf({ place }: RowFacts, found: Found, comparison: Comparison): string {
  const { confidence, runsA, runsB } = comparison;
  const { inference, block, outcome } = found;
  const at: ResultPlace = { ...place, changePercent: found.changePercent ?? 0 };
  if (inference === undefined) {
    if (comparison.method === 'one run each') {
      const within = block === undefined ? undefined : { ...percents(block), confidence };
      return tell('result.one-run-each', { ...at, within }).message;
    }
    if (comparison.method === 'no inference') return tell('result.few-runs', { ...at, runsA, runsB }).message;
    return tell('result.no-scatter', at).message;
  }
  const shown = { ...at, ...percents(inference.interval), confidence };
  if (outcome !== 'unclear') return tell(`result.${outcome}`, shown).message;
  if (inference.p <= 1 - confidence) {
    const bands = comparison.rows.filter(({ primary }) => !primary).length;
    return tell('result.chance', { ...shown, bands, pAdjusted: inference.pAdjusted }).message;
  }
  return tell('result.unclear', { ...shown, eitherWayPercent: inference.excluded.eitherWayPercent }).message;
}
