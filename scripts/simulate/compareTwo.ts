import { compareChanges } from '../../src/statistics/compareChanges.ts';
import type { Comparison, Levels, StatementOptions } from '../../src/statistics/comparison.ts';
import type { KnownRun } from '../../src/statistics/knownRun.ts';
import type { RunsKnown } from '../../src/statistics/methods.ts';

export interface CompareOptions extends StatementOptions {
  /** Place of each run in the order they were made in, its pair and its day, where they are known. */
  readonly order?: RunsKnown<number> | undefined;
  readonly pairs?: RunsKnown<string> | undefined;
  readonly days?: RunsKnown<string> | undefined;
  /** Index of the one band named in advance, which is a family of its own. */
  readonly primary?: number | undefined;
}

/**
 * Compares condition B with condition A, band by band: `compareChanges` of two conditions.
 *
 * @param bands one entry a band, each with the same counts of runs
 * @throws RangeError for options out of range or counts that differ from band to band
 */
export function compare(bands: readonly Levels[], options: CompareOptions = {}): Comparison {
  requireOptions(bands, options, options.confidence ?? 0.95);
  const { order, pairs, days, primary, ...rest } = options;
  const side = (condition: 'A' | 'B', at: 'a' | 'b'): KnownRun[] =>
    bands[0][at].map((_, k) => ({
      condition,
      stratum: '',
      place: order?.[at][k],
      pair: pairs?.[at][k],
      day: days?.[at][k],
    }));
  const rows = bands.map(({ a, b }) => [...a, ...b]);
  const [found] = compareChanges(rows, [...side('A', 'a'), ...side('B', 'b')], [{ from: 'A', to: 'B' }], {
    ...rest,
    primary: primary === undefined ? [] : [primary],
  });
  return found;
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
