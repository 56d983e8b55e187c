import type { CompareOptions, Comparison, ComparisonRow, Inference, Levels, Note } from './comparison.ts';
import { twoSidedP, type Estimate } from './estimate.ts';
import { statement } from './interval.ts';
import { chooseMethod, fewestRuns, type ChosenMethod, type RunsKnown } from './methods.ts';
import { exclusion, outcome, shownDirection } from './outcome.ts';
import { changeDb, changePercent, haveLogarithms, logarithms, meanAndVariance, powerPercent } from './summary.ts';

/**
 * Compares condition B with condition A, band by band. The run is the unit of evidence: each run gives one level
 * a band, the logarithms of the levels are compared, and the result is the ratio of the geometric means over runs.
 *
 * - The method follows from how the test was laid out (see `chooseMethod`), or from what was asked for.
 * - Each row makes one statement (see `statement`): the primary band by itself, the others for all of them together.
 *   Outcome, sentence and verdict are read from it.
 * - All of one condition before the other: figures and intervals, and no outcome.
 * - Fewer than 3 runs a side: no inference and no interval, whatever was asked.
 *
 * @param bands one entry a band, each with the same counts of runs
 * @throws RangeError for options out of range or counts that differ from band to band
 */
export function compare(bands: readonly Levels[], options: CompareOptions = {}): Comparison {
  const confidence = options.confidence ?? 0.95;
  requireOptions(bands, options, confidence);
  const { order, pairs, days, primary, margin, method: asked } = options;
  const [runsA, runsB] = [bands[0].a.length, bands[0].b.length];
  const chosen = chooseMethod({ runsA, runsB, order, pairs, days, asked });
  const { sequence, varianceInflation } = chosen;
  const family = Math.max(1, bands.length - (primary === undefined ? 0 : 1) + (options.besides ?? 0));
  const rest = { confidence, runsA, runsB, family, sequence, varianceInflation };
  if (Math.min(runsA, runsB) < fewestRuns) return { ...rest, ...withoutInference(bands, primary) };
  const rows = bands.map((band, k) => {
    const estimate = estimateOf(band, chosen);
    const inference = estimate && infer(estimate, confidence, k === primary ? 1 : family, margin);
    return row(band, k === primary, inference, sequence !== 'apart');
  });
  const notes = [...layoutNotes(chosen, options, runsA, runsB), ...rows.flatMap(rowNotes)];
  return { ...rest, method: chosen.method, rows, notes };
}

function requireOptions(bands: readonly Levels[], options: CompareOptions, confidence: number): void {
  if (!(confidence > 0.5 && confidence < 1))
    throw new RangeError(`confidence must lie between 0.5 and 1, but is ${confidence}`);
  if (bands.length === 0) throw new RangeError('there must be at least one band');
  const { a, b } = bands[0];
  if (a.length === 0 || b.length === 0) throw new RangeError('there must be at least one run of A and one of B');
  if (bands.some((band) => band.a.length !== a.length || band.b.length !== b.length)) {
    throw new RangeError('every band must have the same runs');
  }
  const { order, pairs, days, primary, margin } = options;
  for (const known of [order, pairs, days]) {
    if (known && (known.a.length !== a.length || known.b.length !== b.length))
      throw new RangeError('order, pairs and days must be given for each run');
  }
  if (primary !== undefined && !(primary in bands)) throw new RangeError(`there is no band ${primary} to be primary`);
  if (margin !== undefined && !(margin > 0 && margin < Infinity))
    throw new RangeError(`margin must be above 0, but is ${margin}`);
}

function estimateOf({ a, b }: Levels, { contrast }: ChosenMethod): Estimate | undefined {
  if (contrast === undefined || !haveLogarithms(a) || !haveLogarithms(b)) return undefined;
  return contrast.estimate([...logarithms(a), ...logarithms(b)]);
}

function infer(estimate: Estimate, confidence: number, family: number, margin: number | undefined): Inference {
  const said = statement(estimate, confidence, family);
  const { low, high } = said.interval;
  return {
    ...estimate,
    ...said,
    ratio: Math.exp(estimate.difference),
    pAlone: twoSidedP(estimate),
    direction: shownDirection(said.interval),
    equivalent: margin === undefined ? undefined : low >= 1 / (1 + margin) && high <= 1 + margin,
    excluded: exclusion(said.interval),
  };
}

/** The plain figures of a band, to which the inference is added where there is one. */
function row(band: Levels, primary: boolean, inference: Inference | undefined, decides: boolean): ComparisonRow {
  if (!haveLogarithms(band.a) || !haveLogarithms(band.b)) {
    const none = undefined;
    const figures = { a: none, b: none, ratio: none, changePercent: none, changeDb: none, powerPercent: none };
    return { ...figures, primary, inference: none, spread: none, outcome: 'not shown' };
  }
  const [a, b] = [meanAndVariance(logarithms(band.a)), meanAndVariance(logarithms(band.b))];
  const ratio = inference?.ratio ?? Math.exp(b.mean - a.mean);
  const df = a.n + b.n - 2;
  return {
    primary,
    inference,
    a: Math.exp(a.mean),
    b: Math.exp(b.mean),
    ratio,
    changePercent: changePercent(ratio),
    changeDb: changeDb(ratio),
    powerPercent: powerPercent(ratio),
    spread: df > 0 ? Math.sqrt((a.variance * (a.n - 1) + b.variance * (b.n - 1)) / df) : undefined,
    outcome: inference && decides ? outcome(inference.direction, inference.equivalent) : 'not shown',
  };
}

function withoutInference(
  bands: readonly Levels[],
  primary: number | undefined,
): Pick<Comparison, 'method' | 'rows' | 'notes'> {
  const [runsA, runsB] = [bands[0].a.length, bands[0].b.length];
  const single = runsA === 1 && runsB === 1;
  const rows = bands.map((band, k) => row(band, k === primary, undefined, false));
  const note: Note = single ? { code: 'one-run-each' } : { code: 'few-runs', runsA, runsB, needed: fewestRuns };
  const notes = rows.flatMap((one, band) => (one.ratio === undefined ? rowNotes(one, band) : []));
  return { method: single ? 'one run each' : 'no inference', rows, notes: [note, ...notes] };
}

/** What the layout of the test puts at risk. */
function layoutNotes(
  { method, obstacle, sequence, varianceInflation }: ChosenMethod,
  { method: asked, order }: CompareOptions,
  runsA: number,
  runsB: number,
): Note[] {
  const notes: Note[] = [];
  if (obstacle !== undefined)
    notes.push({ code: 'method-not-possible', method: asked ?? 'paired', instead: method, obstacle, runsA, runsB });
  if (sequence === 'apart') notes.push({ code: 'order-apart', varianceInflation });
  if (sequence === 'leaning' && varianceInflation !== undefined) notes.push({ code: 'order-leans', varianceInflation });
  if (method === 'paired' && asked === 'paired' && order && !neighbours(order))
    notes.push({ code: 'pairs-not-neighbours' });
  return notes;
}

/** Whether the k-th run of A and the k-th of B are next to each other in the order, for every k. */
function neighbours(order: RunsKnown<number>): boolean {
  const all = [...order.a, ...order.b].sort((x, y) => x - y);
  const [a, b] = [[...order.a].sort((x, y) => x - y), [...order.b].sort((x, y) => x - y)];
  return a.every((place, k) => Math.abs(all.indexOf(place) - all.indexOf(b[k])) === 1);
}

function rowNotes(row: ComparisonRow, band: number): Note[] {
  if (row.ratio === undefined) return [{ code: 'not-a-level', band }];
  return row.inference === undefined ? [{ code: 'no-scatter', band }] : [];
}
