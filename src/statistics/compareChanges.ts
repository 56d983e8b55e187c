import type {
  AskedChange,
  ChangesOptions,
  Comparison,
  ComparisonRow,
  Inference,
  Note,
  RowInteraction,
  StatedPower,
} from './comparison.ts';
import { ifScattered, twoSidedP, type Estimate } from './estimate.ts';
import { interactionOf } from './interaction.ts';
import { statement, type Jointly } from './interval.ts';
import type { KnownRun } from './knownRun.ts';
import { fewestForSlope, fewestInCell, fewestRuns, type ChosenForChange } from './methods.ts';
import { methodOfChange, runsOfChange } from './methodOfChange.ts';
import { refitsOf } from './overRefits.ts';
import { isWithholding } from './sequence.ts';
import { exclusion, outcome, shownDirection } from './outcome.ts';
import { changeDb, changePercent, haveLogarithms, logarithms, meanAndVariance, powerPercent } from './summary.ts';
import { expOf } from '../numbers/exponential.ts';

/**
 * Every change that is asked for, row by row. Each run gives one level a row (a band, say, of one axis), the logarithms
 * of the levels are compared, and a change is the ratio of the geometric means over runs; over several strata, of their
 * means with equal weights.
 *
 * - The method follows from how the test was laid out (see `chooseForChange`), or from what was asked for. The runs of
 *   the other conditions and the reference runs help to tell a drift.
 * - Each row makes one statement (see `statement`). All rows of all changes hold together; those of the primary band
 *   and those within single strata are families of their own.
 * - All of one condition before the other: figures and intervals, and no outcome.
 * - Fewer than 3 runs a side, in each stratum 2: no inference and no interval, whatever was asked.
 *
 * @param rows levels of the runs, one list a row
 * @param runs in the order of the levels
 * @returns one comparison a change
 */
export function compareChanges(
  rows: readonly (readonly number[])[],
  runs: readonly KnownRun[],
  changes: readonly AskedChange[],
  options: ChangesOptions,
): Comparison[] {
  const { primary = [], besides = 0 } = options;
  const able = changes.map((change) => shortage(runs, change, options) === undefined);
  const count = (within: boolean): number =>
    Math.max(1, changes.filter(({ stratum }, k) => (stratum !== undefined) === within && able[k]).length);
  const families = {
    primary: primary.length * count(false),
    others: Math.max(1, (rows.length - primary.length) * count(false) + besides),
    within: rows.length * count(true),
  };
  return changes.map((change) => {
    const jointly = options.isPooled === true ? jointlyOf(runs, changes, change, options) : undefined;
    return comparisonOf(rows, runs, change, { ...options, families, jointly });
  });
}

/** How many rows hold together: of the primary band, the others, and all within single strata. */
interface Families {
  readonly primary: number;
  readonly others: number;
  readonly within: number;
}

type Options = ChangesOptions & { readonly families: Families; readonly jointly: Jointly | undefined };

/**
 * How the changes beside one share their scatter: against one baseline as Dunnett's, with the least correlation that two of
 * them have, which is exact where numbers are equal; of every two conditions as Tukey's, which Kramer's form keeps for
 * unequal ones. Undefined for one change, and where they rest on different runs.
 */
function jointlyOf(
  known: readonly KnownRun[],
  changes: readonly AskedChange[],
  { stratum }: AskedChange,
  options: ChangesOptions,
): Jointly | undefined {
  const beside = changes.filter((one) => one.stratum === stratum && shortage(known, one, options) === undefined);
  if (beside.length < 2) return undefined;
  const weights = beside.flatMap((one) => {
    const { runs, contrast } = methodOfChange(runsOfChange(known, one).runs, one, options);
    return contrast === undefined || runs.length < contrast.weights.length ? [] : [contrast.weights];
  });
  if (weights.length < beside.length || weights.some(({ length }) => length !== weights[0].length)) return undefined;
  const count = beside.length;
  if (new Set(beside.map(({ from }) => from)).size > 1) {
    const conditions = new Set(beside.flatMap(({ from, to }) => [from, to])).size;
    return { count, of: { kind: 'tukey', conditions } };
  }
  const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, weight, i) => sum + weight * b[i], 0);
  const pairs = weights.flatMap((a, i) =>
    weights.slice(i + 1).map((b) => dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b))),
  );
  return { count, of: { kind: 'dunnett', changes: count, correlation: Math.max(0, Math.min(...pairs)) } };
}

function comparisonOf(
  rows: readonly (readonly number[])[],
  known: readonly KnownRun[],
  change: AskedChange,
  options: Options,
): Comparison {
  const { confidence = 0.95, primary = [], margin, families, stated = [] } = options;
  const { runs, indices } = runsOfChange(known, change);
  const cells = cellsOf(runs, change);
  const [runsA, runsB] = [cells.a, cells.b].map((side) => side.flat().length);
  const within = change.stratum !== undefined;
  const levels = rows.map((row) => indices.map((index) => row[index]));
  const lacking = shortage(known, change, options);
  const chosen = methodOfChange(runs, change, options);
  const used = stated.map((one) => ({ ...one, logarithms: indices.map((index) => one.logarithms[index]) }));
  const found = levels.map((row, k) => {
    const isPrimary = !within && primary.includes(k);
    const family = within ? families.within : isPrimary ? families.primary : families.others;
    const estimate = lacking === undefined ? estimateOf(row, chosen, used) : undefined;
    const inference = estimate && infer(estimate, confidence, { family, jointly: options.jointly }, margin);
    const residual = estimate === undefined ? undefined : spreadOf(row, chosen);
    return rowOf(row, cells, {
      primary: isPrimary,
      family,
      inference,
      interaction: lacking === undefined && !within ? interactionIn(row, chosen, { runs, change, family }) : undefined,
      residual,
      decides: !isWithholding(chosen.sequence),
    });
  });
  const figures = {
    confidence,
    runsA,
    runsB,
    family: within ? families.within : families.others,
    sequence: chosen.sequence,
    varianceInflation: chosen.varianceInflation,
    rows: found,
  };
  if (lacking !== undefined) {
    const method = lacking.code === 'one-run-each' ? 'one run each' : 'no inference';
    return { ...figures, method, notes: [lacking, ...zeros(found)] };
  }
  const notes = [...layoutNotes(chosen, runs, change, options), ...found.flatMap(rowNotes)];
  return { ...figures, method: chosen.method, notes };
}

/** Indices of the runs of both sides, one list a stratum. */
interface Cells {
  readonly a: readonly (readonly number[])[];
  readonly b: readonly (readonly number[])[];
}

function cellsOf(runs: readonly KnownRun[], { from, to }: AskedChange): Cells {
  const strata = [...new Set(runs.filter(({ condition }) => condition === to).map(({ stratum }) => stratum))];
  const of = (condition: string): number[][] =>
    strata.map((stratum) =>
      runs.flatMap((run, index) => (run.condition === condition && run.stratum === stratum ? [index] : [])),
    );
  return { a: of(from), b: of(to) };
}

/** Why nothing is inferred of a change: too few runs on a side, in a stratum, on too few days; undefined if it can be. */
function shortage(known: readonly KnownRun[], change: AskedChange, options: ChangesOptions): Note | undefined {
  const { runs } = runsOfChange(known, change);
  const { a, b } = cellsOf(runs, change);
  const least = Math.min(...a.map(({ length }) => length), ...b.map(({ length }) => length));
  const [runsA, runsB] = [a, b].map((side) => side.flat().length);
  if (a.length === 1) {
    if (runsA === 1 && runsB === 1) return { code: 'one-run-each' };
    if (least < fewestRuns) return { code: 'few-runs', runsA, runsB, needed: fewestRuns };
  } else if (options.isOverDays !== true && least < fewestInCell) {
    return { code: 'few-in-cell', least, needed: fewestInCell };
  }
  const side = Math.min(runsA, runsB);
  const fits = (runs[0]?.covariates ?? []).length > 0;
  if (fits && side < fewestForSlope) return { code: 'few-for-slope', least: side, needed: fewestForSlope };
  return undefined;
}

/**
 * The estimate of a row, with what an uncertain power of a covariate adds to its variance. Levels are brought to one value of
 * the covariate v by a power p, so that d = w'(y - p ln v) moves by -w'ln v for each unit of p: (w'ln v u_p)^2 is added,
 * w being the weights by which the method itself takes the difference. Only where these are plain means (Welch) is w'ln v the
 * difference of the means of ln v; of a covariate that ran with the order, a trend takes out what it would have added.
 * u_p is known, so that Satterthwaite's degrees of freedom grow by the square of the variances' ratio; limits never close by it.
 */
function estimateOf(
  row: readonly number[],
  { contrast, runs }: ChosenForChange,
  stated: readonly StatedPower[],
): Estimate | undefined {
  const levels = runs.map((index) => row[index]);
  if (contrast === undefined || !haveLogarithms(levels)) return undefined;
  const found = contrast.estimate(logarithms(levels));
  if (found === undefined || stated.length === 0) return found;
  const square = found.standardError ** 2;
  const apart = stated.map(({ logarithms: values }) =>
    contrast.weights.reduce((total, weight, i) => total + weight * values[runs[i]], 0),
  );
  const added = stated.reduce((sum, { uncertainty }, k) => sum + (apart[k] * uncertainty) ** 2, 0);
  const df = (found.df * (square + added) ** 2) / square ** 2;
  const byRuns = { standardError: found.standardError, df: found.df };
  return ifScattered({ ...found, standardError: Math.sqrt(square + added), df, apart, byRuns });
}

function infer(
  estimate: Estimate,
  confidence: number,
  { family, jointly }: { readonly family: number; readonly jointly: Jointly | undefined },
  margin: number | undefined,
): Inference {
  const said = statement(estimate, confidence, family, jointly);
  const { low, high } = said.interval;
  return {
    ...estimate,
    ...said,
    ratio: expOf(estimate.difference),
    pAlone: twoSidedP(estimate),
    direction: shownDirection(said.interval),
    equivalent: margin === undefined ? undefined : low >= 1 / (1 + margin) && high <= 1 + margin,
    excluded: exclusion(said.interval),
  };
}

/** Scatter from run to run, once the method has taken out what it takes out; undefined where it has none of its own. */
const spreadOf = (row: readonly number[], { contrast, runs }: ChosenForChange): number | undefined =>
  contrast?.spread?.(logarithms(runs.map((index) => row[index])));

/**
 * Whether the change differs between the strata, with what the method takes out taken out; for all rows together by
 * Bonferroni's inequality. Undefined where the scatter is that of refits, and of an order that withholds outcomes.
 */
function interactionIn(
  row: readonly number[],
  { contrast, sequence, runs: used }: ChosenForChange,
  {
    runs,
    change,
    family,
  }: { readonly runs: readonly KnownRun[]; readonly change: AskedChange; readonly family: number },
): RowInteraction | undefined {
  const levels = used.map((index) => row[index]);
  if (contrast?.nuisance === undefined || isWithholding(sequence) || !haveLogarithms(levels)) return undefined;
  const { nuisance } = contrast;
  const found = interactionOf({ runs: used.map((index) => runs[index]), change, nuisance }, logarithms(levels));
  return found && { ...found, pTogether: Math.min(1, family * found.p) };
}

interface InferredRow extends Pick<ComparisonRow, 'primary' | 'family' | 'inference' | 'interaction'> {
  readonly decides: boolean;
  /** Scatter by the method; without one that within each side is told. */
  readonly residual: number | undefined;
}

/** The plain figures of a row, to which the inference is added where there is one. */
function rowOf(
  levels: readonly number[],
  cells: Cells,
  { residual, decides, ...inferred }: InferredRow,
): ComparisonRow {
  const [inA, inB] = [cells.a, cells.b].map((side) => side.map((cell) => cell.map((index) => levels[index])));
  if (![...inA, ...inB].every(haveLogarithms)) {
    const none = undefined;
    const figures = { a: none, b: none, ratio: none, changePercent: none, changeDb: none, powerPercent: none };
    return { ...inferred, ...figures, inference: none, spread: none, outcome: 'not shown' };
  }
  const [a, b] = [inA, inB].map((side) => side.map((cell) => meanAndVariance(logarithms(cell))));
  const { inference } = inferred;
  const mean = (side: typeof a): number => side.reduce((sum, cell) => sum + cell.mean, 0) / side.length;
  const ratio = inference?.ratio ?? expOf(mean(b) - mean(a));
  const all = [...a, ...b];
  const df = all.reduce((sum, { n }) => sum + n - 1, 0);
  return {
    ...inferred,
    a: expOf(mean(a)),
    b: expOf(mean(b)),
    ratio,
    changePercent: changePercent(ratio),
    changeDb: changeDb(ratio),
    powerPercent: powerPercent(ratio),
    spread:
      residual ??
      (df > 0 ? Math.sqrt(all.reduce((sum, { variance, n }) => sum + variance * (n - 1), 0) / df) : undefined),
    outcome: inference && decides ? outcome(inference.direction, inference.equivalent) : 'not shown',
  };
}

/** What the layout of the test puts at risk. */
function layoutNotes(
  { method, obstacle, sequence, varianceInflation }: ChosenForChange,
  runs: readonly KnownRun[],
  change: AskedChange,
  { method: asked }: ChangesOptions,
): Note[] {
  const notes: Note[] = [];
  const [a, b] = [change.from, change.to].map((one) => runs.filter(({ condition }) => condition === one));
  if (obstacle !== undefined) {
    const counts = { runsA: a.length, runsB: b.length };
    notes.push({ code: 'method-not-possible', method: asked ?? 'paired', instead: method, obstacle, ...counts });
  }
  if (sequence === 'apart') notes.push({ code: 'order-apart', varianceInflation });
  if (sequence === 'other-days') notes.push({ code: 'other-days' });
  if (sequence === 'leaning' && varianceInflation !== undefined) notes.push({ code: 'order-leans', varianceInflation });
  const once = refitsOf(runs, change)?.fittedOnce ?? [];
  if (once.length > 0)
    notes.push({ code: 'fitted-once', onceA: once.includes(change.from), onceB: once.includes(change.to) });
  if (method === 'paired' && asked === 'paired' && !areNeighbours(a, b)) notes.push({ code: 'pairs-not-neighbours' });
  return notes;
}

/** Whether the k-th run of A and the k-th of B are next to each other in the order, for every k; so if it is not known. */
function areNeighbours(a: readonly KnownRun[], b: readonly KnownRun[]): boolean {
  const [placesA, placesB] = [a, b].map((side) => side.flatMap(({ place }) => place ?? []).sort((x, y) => x - y));
  if (placesA.length < a.length || placesB.length < b.length) return true;
  const all = [...placesA, ...placesB].sort((x, y) => x - y);
  return placesA.every((place, k) => Math.abs(all.indexOf(place) - all.indexOf(placesB[k])) === 1);
}

const zeros = (rows: readonly ComparisonRow[]): Note[] =>
  rows.flatMap((row, band) => (row.ratio === undefined ? [{ code: 'not-a-level', band } as const] : []));

function rowNotes(row: ComparisonRow, band: number): Note[] {
  if (row.ratio === undefined) return [{ code: 'not-a-level', band }];
  return row.inference === undefined ? [{ code: 'no-scatter', band }] : [];
}
