import type { Message } from '../../result/result.ts';
import type { Comparison, ComparisonRow as Found, Inference, Levels } from '../../statistics/comparison.ts';
import type { RatioInterval } from '../../statistics/estimate.ts';
import { isWithholding } from '../../statistics/sequence.ts';
import type { Unit } from '../../units/unit.ts';
import type { Band } from '../../values/band.ts';
import type { ComparisonRow, PercentInterval, SensorError } from '../../values/comparisonParts.ts';
import { tell, type ResultPlace } from '../messages/comparison.ts';

/** What a row is told with, beside what statistics found. */
export interface RowFacts {
  readonly band: Band;
  readonly unit: Unit;
  readonly levels: Levels;
  /** The stratum that the row is of; undefined over all, and where there are none. */
  readonly stratum: string | undefined;
  /** Share of A's mean square that the band holds, in percent. */
  readonly shareOfA: number | undefined;
  /** Reasons against a verdict by this row alone, as clauses. */
  readonly guards: readonly Message[];
  /** All reasons against one, those of the whole comparison and of its plan among them: then the row shows nothing. */
  readonly against: readonly Message[];
  /** What the sensors' sensitivity leaves in the change. */
  readonly sensors: readonly SensorError[];
  /** A fraction: changes within it count as none. */
  readonly margin: number | undefined;
  readonly place: Omit<ResultPlace, 'changePercent' | 'method' | 'runsA' | 'runsB'>;
}

/** A row of a comparison as its value has it, with its sentence. */
export function comparisonRow(facts: RowFacts, found: Found, comparison: Comparison): ComparisonRow {
  const { inference } = found;
  const { band, unit, levels, shareOfA, guards, place, stratum, sensors } = facts;
  return {
    band,
    baseline: place.a,
    condition: place.b,
    ...(stratum === undefined ? {} : { stratum }),
    channel: place.channel,
    family: found.family,
    methodCode: comparison.method,
    sequence: comparison.sequence,
    unit,
    // Levels above 0 have all of these.
    a: found.a ?? 0,
    b: found.b ?? 0,
    aRuns: levels.a,
    bRuns: levels.b,
    changePercent: found.changePercent ?? 0,
    changeDb: found.changeDb ?? 0,
    ...(inference === undefined ? { lowPercent: undefined, highPercent: undefined } : percents(inference.interval)),
    ...(inference === undefined ? {} : { standardError: inference.standardError, df: inference.df }),
    p: inference?.pAlone,
    pAdjusted: inference?.p,
    outcome: isWithheld(facts, comparison) ? 'not shown' : found.outcome,
    shareOfA,
    sentence: sentenceOf(facts, found, comparison),
    ...(found.primary ? { primary: true } : {}),
    ...(found.spread === undefined ? {} : { spread: found.spread }),
    ...(inference === undefined || isWithheld(facts, comparison) ? {} : inferred(inference)),
    ...(sensors.length === 0 ? {} : { sensors }),
    ...interactionOf(facts, found, comparison),
    ...(guards.length === 0 ? {} : { guards }),
  };
}

/** Whether the change differs between strata, with its sentence. */
function interactionOf(
  { place }: RowFacts,
  { interaction, family }: Found,
  { method, runsA, runsB }: Comparison,
): Pick<ComparisonRow, 'interaction'> {
  if (interaction === undefined) return {};
  const { f, df, p, pTogether } = interaction;
  const { message } = tell('result.interaction', { ...place, method, runsA, runsB, f, df, p: pTogether, family });
  return { interaction: { f, df, p, pAdjusted: pTogether, sentence: message } };
}

/** Whether the interval stands without anything being read from it. */
const isWithheld = ({ against }: RowFacts, { sequence }: Comparison): boolean =>
  against.length > 0 || isWithholding(sequence);

const percents = ({ low, high }: RatioInterval): PercentInterval => ({
  lowPercent: 100 * (low - 1),
  highPercent: 100 * (high - 1),
});

const inferred = ({ excluded, equivalent }: Inference): Pick<ComparisonRow, 'excludes' | 'equivalent'> => ({
  excludes: excluded,
  ...(equivalent === undefined ? {} : { equivalent }),
});

/** A row's result in one sentence that may be printed. */
function sentenceOf({ place, margin, against }: RowFacts, found: Found, comparison: Comparison): string {
  const { confidence, method, runsA, runsB, sequence } = comparison;
  const { inference, outcome } = found;
  const at: ResultPlace = { ...place, changePercent: found.changePercent ?? 0, method, runsA, runsB };
  if (inference === undefined) {
    if (method === 'one run each') return tell('result.one-run-each', at).message;
    return tell(method === 'no inference' ? 'result.few-runs' : 'result.no-scatter', at).message;
  }
  const shown = { ...at, ...percents(inference.interval), confidence, family: found.family };
  const isUnplannedAlone = against.every(({ code }) => code === 'guard.compared');
  if (against.length > 0 && isUnplannedAlone) return tell('result.unplanned', shown).message;
  if (against.length > 0)
    return tell('result.withheld', { ...shown, reasons: against.map(({ message }) => message) }).message;
  if (sequence === 'apart') return tell('result.apart', shown).message;
  if (sequence === 'other-days') return tell('result.other-days', shown).message;
  if (outcome === 'equivalent') return tell('result.equivalent', { ...shown, margin: margin ?? 0 }).message;
  if (outcome !== 'not shown') return tell(`result.${outcome}`, shown).message;
  return tell('result.not-shown', { ...shown, margin, eitherWayPercent: inference.excluded.eitherWayPercent }).message;
}
