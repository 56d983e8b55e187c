import { blockInterval } from './block.ts';
import type { CompareOptions, Comparison, ComparisonRow, Inference, Levels, Note, Sensitivity } from './comparison.ts';
import { equivalence } from './equivalence.ts';
import { ratioInterval, twoSidedP, type Estimate } from './estimate.ts';
import { holm } from './holm.ts';
import { estimateBy, fewestRuns, methods, obstacle, type Method, type RunOrder } from './methods.ts';
import { driftNotes, rowNotes } from './notes.ts';
import { exclusion, outcome, shownDirection } from './outcome.ts';
import { trend } from './trend.ts';
import { changeDb, changePercent, haveLogarithms, logarithms, meanAndVariance, powerPercent } from './summary.ts';

/**
 * Compares condition B with condition A, band by band. The run is the unit of evidence: each run gives one level
 * a band, the logarithms of the levels are compared, and the result is the ratio of the geometric means over runs.
 *
 * - Welch's t interval by default; `paired`, `trend` or `pooled` where planned and possible, else Welch with a note.
 * - Fewer than 3 runs a side: no inference, whatever was asked; the ratio stands alone, and with one run each an
 *   interval from blocks that speaks of these two recordings only.
 * - Several bands: Holm's adjusted p; the primary band stands outside the family.
 * - Every other possible method's answer is given beside, as sensitivity.
 *
 * @param bands one entry a band, each with the same counts of runs, at least one a side
 * @throws RangeError for options out of range or counts that differ from band to band
 */
export function compare(bands: readonly Levels[], options: CompareOptions = {}): Comparison {
  const confidence = options.confidence ?? 0.95;
  requireOptions(bands, options, confidence);
  const [runsA, runsB] = [bands[0].a.length, bands[0].b.length];
  const order = options.orderA && options.orderB && { a: options.orderA, b: options.orderB };
  if (Math.min(runsA, runsB) < fewestRuns) return withoutInference(bands, confidence, options);

  const notes: Note[] = [];
  const planned = options.method ?? 'welch';
  const problem = obstacle(planned, runsA, runsB, order);
  if (problem) notes.push({ code: 'method-not-possible', method: planned, obstacle: problem, runsA, runsB });
  const method = problem ? 'welch' : planned;

  const estimates = bands.map(({ a, b }) =>
    haveLogarithms(a) && haveLogarithms(b) ? estimateBy(method, logarithms(a), logarithms(b), order) : undefined,
  );
  const adjusted = adjustedP(estimates, options.primary);
  const family = Math.max(1, adjusted.filter((p, k) => p !== undefined && k !== options.primary).length);
  const rows = bands.map((band, k) => {
    const estimate = estimates[k];
    const inFamily = k === options.primary ? 1 : family;
    const drift = estimate && driftOf(band, order);
    const inference =
      estimate &&
      infer(estimate, { method, confidence, family: inFamily, margin: options.margin }, adjusted[k] ?? 1, drift);
    const sensitivity = inference && options.sensitivity !== false ? others(band, method, order, confidence) : [];
    return row(band, k === options.primary, inference, sensitivity);
  });
  notes.push(
    ...driftNotes(method, order, rows, confidence),
    ...rows.flatMap((entry, k) => rowNotes(entry, k, confidence)),
  );
  return { method, confidence, runsA, runsB, rows, notes };
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
  const { orderA, orderB, primary } = options;
  if ((orderA && orderA.length !== a.length) || (orderB && orderB.length !== b.length)) {
    throw new RangeError('the order must give one place for each run');
  }
  if (primary !== undefined && !(primary in bands)) throw new RangeError(`there is no band ${primary} to be primary`);
}

/** Two-sided p of each band, adjusted by Holm over those that are not primary. */
function adjustedP(estimates: readonly (Estimate | undefined)[], primary: number | undefined): (number | undefined)[] {
  const p = estimates.map((estimate) => estimate && twoSidedP(estimate));
  const members = p.flatMap((value, k) => (value === undefined || k === primary ? [] : [{ value, k }]));
  const stepped = holm(members.map(({ value }) => value));
  members.forEach(({ k }, place) => (p[k] = stepped[place]));
  return p;
}

/** The drift a run and its p, where the order of the runs lets it be told from the change. */
function driftOf({ a, b }: Levels, order: RunOrder | undefined): Inference['drift'] {
  if (order === undefined || obstacle('trend', a.length, b.length, order)) return undefined;
  const drift = trend(logarithms(a), logarithms(b), order.a, order.b)?.drift;
  return drift && { perRun: Math.expm1(drift.slope), p: drift.p };
}

interface InferenceOptions {
  readonly method: Method;
  readonly confidence: number;
  /** How many rows the family holds. */
  readonly family: number;
  readonly margin: number | undefined;
}

function infer(
  estimate: Estimate,
  { method, confidence, family, margin }: InferenceOptions,
  pAdjusted: number,
  drift: Inference['drift'],
): Inference {
  const { difference, standardError, df } = estimate;
  const ratio = Math.exp(difference);
  const interval = ratioInterval(estimate, confidence);
  return {
    difference,
    standardError,
    df,
    method,
    ratio,
    interval,
    simultaneous: ratioInterval(estimate, 1 - (1 - confidence) / family),
    p: twoSidedP(estimate),
    pAdjusted,
    direction: shownDirection(ratio, pAdjusted, confidence),
    equivalence: margin === undefined ? undefined : equivalence(estimate, margin, confidence),
    excluded: exclusion(interval),
    drift,
  };
}

function others({ a, b }: Levels, used: Method, order: RunOrder | undefined, confidence: number): Sensitivity[] {
  return methods.flatMap((method) => {
    if (method === used || obstacle(method, a.length, b.length, order)) return [];
    const estimate = estimateBy(method, logarithms(a), logarithms(b), order);
    if (estimate === undefined) return [];
    return [
      {
        method,
        ratio: Math.exp(estimate.difference),
        interval: ratioInterval(estimate, confidence),
        p: twoSidedP(estimate),
      },
    ];
  });
}

/** The plain figures of a band, to which the inference is added where there is one. */
function row(
  band: Levels,
  primary: boolean,
  inference: Inference | undefined,
  sensitivity: readonly Sensitivity[],
): ComparisonRow {
  const rest = { primary, inference, block: undefined, sensitivity };
  if (!haveLogarithms(band.a) || !haveLogarithms(band.b)) {
    const none = undefined;
    return {
      ...rest,
      a: none,
      b: none,
      ratio: none,
      changePercent: none,
      changeDb: none,
      powerPercent: none,
      spread: none,
      outcome: 'unclear',
    };
  }
  const [a, b] = [meanAndVariance(logarithms(band.a)), meanAndVariance(logarithms(band.b))];
  const ratio = inference?.ratio ?? Math.exp(b.mean - a.mean);
  const df = a.n + b.n - 2;
  return {
    ...rest,
    a: Math.exp(a.mean),
    b: Math.exp(b.mean),
    ratio,
    changePercent: changePercent(ratio),
    changeDb: changeDb(ratio),
    powerPercent: powerPercent(ratio),
    spread: df > 0 ? Math.sqrt((a.variance * (a.n - 1) + b.variance * (b.n - 1)) / df) : undefined,
    outcome: inference ? outcome(inference.direction, inference.equivalence) : 'unclear',
  };
}

function withoutInference(bands: readonly Levels[], confidence: number, { primary }: CompareOptions): Comparison {
  const [runsA, runsB] = [bands[0].a.length, bands[0].b.length];
  const single = runsA === 1 && runsB === 1;
  const rows = bands.map((band, k) => {
    const plain = row(band, k === primary, undefined, []);
    if (!single || !band.blocksA || !band.blocksB) return plain;
    return { ...plain, block: blockInterval(band.blocksA, band.blocksB, confidence) };
  });
  const note: Note = single ? { code: 'one-run-each' } : { code: 'few-runs', runsA, runsB, needed: fewestRuns };
  const notes = [
    note,
    ...rows.flatMap((entry, k) => (entry.ratio === undefined ? rowNotes(entry, k, confidence) : [])),
  ];
  return { method: single ? 'one run each' : 'no inference', confidence, runsA, runsB, rows, notes };
}
