import type { ComparisonRow, Note } from './comparison.ts';
import type { Method, RunOrder } from './methods.ts';
import { meanAndVariance } from './summary.ts';

/** A mean place of B more than this many runs after A's lets a steady drift pass for a change (engineering choice). */
const leaningOrder = 0.5;

/** What the order of the runs puts at risk, and whether a drift is seen in the data. */
export function driftNotes(method: Method, order: RunOrder | undefined, rows: readonly ComparisonRow[]): Note[] {
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
  rows.forEach(({ inference }, band) => {
    const drift = inference?.drift;
    if (drift && drift.p < 0.05) {
      const percent = `${drift.perRun < 0 ? '-' : '+'}${Math.abs(100 * drift.perRun).toFixed(1)} %`;
      notes.push({
        code: 'drift-seen',
        band,
        message: `The level drifted by ${percent} a run (p = ${drift.p.toFixed(3)}); the trend is taken out.`,
      });
    }
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
    { code: 'methods-disagree', band, message: `By ${names} the runs would show ${found}; the planned method counts.` },
  ];
}
