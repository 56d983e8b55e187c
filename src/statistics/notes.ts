import type { ComparisonRow, Note } from './comparison.ts';
import { holm } from './holm.ts';
import type { Method, RunOrder } from './methods.ts';
import { meanAndVariance } from './summary.ts';

/** A mean place of B more than this many runs after A's lets a steady drift pass for a change (engineering choice). */
const leaningOrder = 0.5;

/** What the order of the runs puts at risk, and whether a drift is seen in the data. */
export function driftNotes(
  method: Method,
  order: RunOrder | undefined,
  rows: readonly ComparisonRow[],
  confidence: number,
): Note[] {
  if (order === undefined) return [];
  const notes: Note[] = [];
  const apart = meanAndVariance(order.b).mean - meanAndVariance(order.a).mean;
  if (method !== 'trend' && Math.abs(apart) > leaningOrder) {
    notes.push({
      code: 'order-leans',
      message:
        `Runs of B came on average ${Math.abs(apart).toFixed(1)} runs ${apart > 0 ? 'after' : 'before'} those of A, ` +
        `so a drift of 1 % a run would look like a change of ${Math.abs(apart).toFixed(1)} %; an ABBA order cancels it.`,
    });
  }
  const drifts = rows.flatMap(({ inference }, band) => (inference?.drift ? [{ ...inference.drift, band }] : []));
  const adjusted = holm(drifts.map(({ p }) => p));
  drifts.forEach(({ perRun, band }, k) => {
    if (adjusted[k] > 1 - confidence) return;
    const percent = `${perRun < 0 ? '-' : '+'}${Math.abs(100 * perRun).toFixed(1)} %`;
    const effect = method === 'trend' ? 'which is taken out' : 'which the trend method would take out';
    notes.push({
      code: 'drift-seen',
      band,
      message: `The level drifted by ${percent} a run over the day (p ${plainP(adjusted[k])}), ${effect}.`,
    });
  });
  if (method === 'paired' && !neighbours(order)) {
    notes.push({
      code: 'pairs-not-neighbours',
      message:
        'The runs of a pair did not follow one another, so pairing does not take out what wandered between them.',
    });
  }
  return notes;
}

const plainP = (p: number): string => (p < 0.001 ? 'below 0.001' : `= ${p.toFixed(3)}`);

/** Whether the k-th run of A and the k-th of B are next to each other in the order, for every k. */
function neighbours(order: RunOrder): boolean {
  const all = [...order.a, ...order.b].sort((x, y) => x - y);
  const [a, b] = [[...order.a].sort((x, y) => x - y), [...order.b].sort((x, y) => x - y)];
  return a.every((place, k) => Math.abs(all.indexOf(place) - all.indexOf(b[k])) === 1);
}

/** What a reader must know about one row. */
export function rowNotes(row: ComparisonRow, band: number, confidence: number): Note[] {
  if (row.ratio === undefined) {
    return [{ code: 'not-a-level', band, message: 'A level is 0 or not a number, so no ratio can be formed.' }];
  }
  const { inference } = row;
  if (inference === undefined) {
    return [
      { code: 'no-scatter', band, message: 'The runs do not differ at all; was the same file loaded more than once?' },
    ];
  }
  const alpha = 1 - confidence;
  const differs = row.sensitivity.filter(({ p }) => p <= alpha !== inference.p <= alpha);
  if (differs.length === 0) return [];
  const names = differs.map(({ method }) => method).join(' and ');
  const found =
    inference.p <= alpha ? 'no difference where this method shows one' : 'a difference where this method shows none';
  return [
    {
      code: 'methods-disagree',
      band,
      message: `By the ${names} ${differs.length === 1 ? 'method' : 'methods'} the runs would show ${found}; the planned method counts.`,
    },
  ];
}
