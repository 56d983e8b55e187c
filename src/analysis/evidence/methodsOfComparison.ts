import { williamsOrder } from '../../statistics/severalOrder.ts';
import { hasAxes, sidesIn, type ComparisonValue } from '../../values/comparison.ts';
import type { ComparisonRow, ComparisonSide } from '../../values/comparisonParts.ts';
import { fittingsOf } from '../../values/fittings.ts';
import type { Run } from '../../values/run.ts';
import type { StratumCount } from '../messages/methods.ts';
import type { HeldTogether, OrderFacts, StatisticsFacts } from '../messages/methodsOfComparison.ts';
import { factOf } from '../../values/sheetColumns.ts';
import { orderLetters } from './knownRuns.ts';
import { dayOf } from './runOrder.ts';

/** Runs of each side in every stratum; nothing where there are none. */
export const strataCounts = (value: ComparisonValue): StratumCount[] =>
  (value.strata?.names ?? []).map((stratum) => ({
    stratum,
    runs: sidesIn(value).map(({ strata = [] }) => strata.filter((one) => one === stratum).length),
  }));

/** In what order the runs of a comparison were made, those of a reference with them. */
export function orderFacts(value: ComparisonValue): OrderFacts {
  const { reference } = value;
  const sides = [...sidesIn(value), ...(reference === undefined ? [] : [reference])];
  const strata: readonly (string | undefined)[] = value.strata?.names ?? [undefined];
  const orders = strata.map((stratum) => ({
    stratum,
    letters: orderLetters(sides.map((side) => placesIn(side, stratum))),
  }));
  const all = orders.map(({ letters }) => designOf(letters, sides.length));
  return {
    names: sides.map(({ name }) => name),
    hasReference: reference !== undefined,
    orders,
    design: reference === undefined && all.every((one) => one === all[0]) ? all[0] : undefined,
  };
}

const placesIn = ({ places, strata }: ComparisonSide, stratum: string | undefined): readonly number[] | undefined =>
  places?.filter((_, k) => stratum === undefined || strata?.[k] === stratum);

/** The design of several conditions' order; of two their letters say enough. */
function designOf(letters: string | undefined, conditions: number): OrderFacts['design'] {
  if (letters === undefined || conditions < 3 || letters.length % conditions > 0) return undefined;
  const indices = [...letters].map((letter) => letter.charCodeAt(0) - 'A'.charCodeAt(0));
  const williams = williamsOrder(letters.length / conditions, conditions);
  if (indices.every((one, k) => one === williams[k])) return 'williams';
  const isBlock = (start: number): boolean => new Set(indices.slice(start, start + conditions)).size === conditions;
  return indices.every((_, k) => k % conditions > 0 || isBlock(k)) ? 'blocks' : undefined;
}

/** What was compared and by what inference. */
export function statisticsFacts(value: ComparisonValue): StatisticsFacts {
  const { a, rows, strata, methodCode, reference } = value;
  const runs = sidesIn(value).flatMap((side) => side.runs);
  const within = rows.filter(({ stratum }) => stratum !== undefined);
  return {
    metric: value.metric,
    baseline: a.name,
    conditions: sidesIn(value)
      .slice(1)
      .map(({ name }) => name),
    isAllPairs: value.isAllPairs === true,
    bands: bandsOf(rows),
    axes: hasAxes(value) ? [...new Set(rows.map(({ channel }) => channel))] : [],
    strata,
    adjusted: value.adjusted ?? [],
    references: reference?.runs.length ?? 0,
    method: value.method,
    methodCode,
    methodsWithin: [...new Set(within.map((row) => row.methodCode))].filter((code) => code !== methodCode),
    pairs: distinct(runs, (run) => factOf(run.sheet?.facts ?? {}, 'pair')),
    days: distinct(runs, dayTold),
    fittings: fittingsOf(value),
    speaksOf: strata?.columns.some((column) => /^(day|session|date)$/i.test(column))
      ? methodCode === 'over-days'
        ? 'other days'
        : 'these days'
      : undefined,
    areHeldApart: rows.some(({ interaction }) => interaction !== undefined),
    isPooled: value.isPooled === true,
    confidence: hasIntervals(value) ? value.confidence : undefined,
    together: togetherIn(rows),
    margin: value.margin,
  };
}

const hasIntervals = ({ rows }: ComparisonValue): boolean => rows.some(({ lowPercent }) => lowPercent !== undefined);

/** Each band once, the primary one marked. */
function bandsOf(rows: readonly ComparisonRow[]): StatisticsFacts['bands'] {
  const isPrimary = ({ band }: ComparisonRow): boolean =>
    rows.some((row) => row.primary === true && row.band.from === band.from && row.band.to === band.to);
  const all = rows.map((row) => ({ ...row.band, primary: isPrimary(row) }));
  return all.filter((band, k) => all.findIndex(({ from, to }) => from === band.from && to === band.to) === k);
}

const dayTold = (run: Run): string | undefined => {
  const facts = run.sheet?.facts ?? {};
  return factOf(facts, 'day') ?? factOf(facts, 'session') ?? dayOf(run);
};

const distinct = (runs: readonly Run[], read: (run: Run) => string | undefined): number =>
  new Set(runs.flatMap((run) => read(run) ?? []).filter((one) => one !== '')).size;

/** The families that rows are of, the primary one first. */
function togetherIn(rows: readonly ComparisonRow[]): HeldTogether[] {
  const familyOf = (row: ComparisonRow): HeldTogether['of'] =>
    row.stratum !== undefined ? 'within' : row.primary === true ? 'primary' : 'others';
  return (['primary', 'others', 'within'] as const).flatMap((of) => {
    const own = rows.filter((row) => familyOf(row) === of && row.lowPercent !== undefined);
    return own.length === 0 ? [] : [{ of, rows: own[0].family }];
  });
}
