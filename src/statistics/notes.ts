import type { ComparisonRow, Note } from './comparison.ts';
import { holm } from './holm.ts';
import type { Method, RunOrder } from './methods.ts';
import { meanAndVariance } from './summary.ts';

/** A mean place of B more than this many runs after A's lets a steady drift pass for a change (engineering choice). */
const leaningOrder = 0.5;

/**
 * What the order of the runs puts at risk, and whether a drift is seen in the data.
 *
 * @param method used
 * @param order place of each run in the day's order; without it nothing is known
 * @param rows of the comparison, whose drifts are adjusted for their number by Holm
 * @param confidence at which a drift counts as seen
 */
export function driftNotes(
  method: Method,
  order: RunOrder | undefined,
  rows: readonly ComparisonRow[],
  confidence: number,
): Note[] {
  if (order === undefined) return [];
  const notes: Note[] = [];
  const lag = meanAndVariance(order.b).mean - meanAndVariance(order.a).mean;
  if (method !== 'trend' && Math.abs(lag) > leaningOrder) notes.push({ code: 'order-leans', lag });
  const drifts = rows.flatMap(({ inference }, band) => (inference?.drift ? [{ ...inference.drift, band }] : []));
  const adjusted = holm(drifts.map(({ p }) => p));
  drifts.forEach(({ perRun, band }, k) => {
    if (adjusted[k] <= 1 - confidence) notes.push({ code: 'drift-seen', band, perRun, p: adjusted[k], method });
  });
  if (method === 'paired' && !neighbours(order)) notes.push({ code: 'pairs-not-neighbours' });
  return notes;
}

/** Whether the k-th run of A and the k-th of B are next to each other in the order, for every k. */
function neighbours(order: RunOrder): boolean {
  const all = [...order.a, ...order.b].sort((x, y) => x - y);
  const [a, b] = [[...order.a].sort((x, y) => x - y), [...order.b].sort((x, y) => x - y)];
  return a.every((place, k) => Math.abs(all.indexOf(place) - all.indexOf(b[k])) === 1);
}

/**
 * What a reader must know about one row: why it has no inference, or that other methods would find otherwise.
 *
 * @param band index of the row
 * @param confidence at which a difference counts as shown
 */
export function rowNotes(row: ComparisonRow, band: number, confidence: number): Note[] {
  if (row.ratio === undefined) return [{ code: 'not-a-level', band }];
  const { inference } = row;
  if (inference === undefined) return [{ code: 'no-scatter', band }];
  const alpha = 1 - confidence;
  const shown = inference.p <= alpha;
  const methods = row.sensitivity.filter(({ p }) => p <= alpha !== shown).map(({ method }) => method);
  return methods.length === 0 ? [] : [{ code: 'methods-disagree', band, methods, shown }];
}
