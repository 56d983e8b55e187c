import { compareChanges } from '../../src/statistics/compareChanges.ts';
import type { AskedChange } from '../../src/statistics/comparison.ts';
import type { KnownRun } from '../../src/statistics/knownRun.ts';
import { interleavedOrder } from '../../src/statistics/order.ts';
import { williamsOrder } from '../../src/statistics/severalOrder.ts';
import type { Noise } from './noise.ts';

/** A study whose conditions do not differ, drawn again and again. */
export interface SeveralStudy {
  readonly runs: readonly KnownRun[];
  /** Standard deviation of ln level of a run. */
  readonly scatter: (run: KnownRun) => number;
  /** Drift of ln level a run. */
  readonly drift: number;
  readonly bands: number;
  readonly changes: readonly AskedChange[];
}

/** Several conditions in a Williams design, each against the first. */
export function severalConditions(
  runs: number,
  scatter: readonly number[],
  drift: number,
  bands: number,
): SeveralStudy {
  const order = williamsOrder(runs, scatter.length);
  return {
    runs: order.map((condition, k) => ({ condition: String(condition), stratum: '', place: k + 1 })),
    scatter: ({ condition }) => scatter[Number(condition)],
    changes: scatter.slice(1).map((_, k) => ({ from: '0', to: String(k + 1) })),
    ...{ drift, bands },
  };
}

/** Two conditions in strata, each with an order of its own: the change over all of them and in each. */
export function inStrata(
  strata: number,
  runs: number,
  scatter: readonly [number, number],
  drift: number,
): SeveralStudy {
  const names = Array.from({ length: strata }, (_, k) => String(k));
  return {
    runs: names.flatMap((stratum) =>
      interleavedOrder(runs).map((condition, k) => ({ condition, stratum, place: k + 1 })),
    ),
    scatter: ({ condition }) => scatter[condition === 'A' ? 0 : 1],
    changes: [undefined, ...names].map((stratum) => ({ from: 'A', to: 'B', stratum })),
    ...{ drift, bands: 1 },
  };
}

/** In percent: how often the first change's interval holds, and how often any of a family misses; over all, and in strata. */
export interface SeveralRates {
  readonly covered: number;
  readonly misses: number;
  readonly missesWithin: number;
}

/** What the intervals of a study hold where nothing differs. @param experiments how many are drawn */
export function severalRates(study: SeveralStudy, experiments: number, random: Noise): SeveralRates {
  const { runs, scatter, drift, bands, changes } = study;
  const count = { covered: 0, misses: 0, within: 0 };
  for (let k = 0; k < experiments; k++) {
    const rows = Array.from({ length: bands }, () =>
      runs.map((run) =>
        Math.exp(scatter(run) * random.gaussian() + drift * (run.place ?? 0) + Number(run.stratum) / 2),
      ),
    );
    const found = compareChanges(rows, runs, changes, {});
    const [alone] = compareChanges(rows.slice(0, 1), runs, changes.slice(0, 1), {});
    const isMissed = ({ rows: list }: (typeof found)[number]): boolean =>
      list.some(
        ({ inference }) => inference !== undefined && (inference.interval.low > 1 || inference.interval.high < 1),
      );
    if (!isMissed(alone)) count.covered++;
    if (found.some((one, c) => changes[c].stratum === undefined && isMissed(one))) count.misses++;
    if (found.some((one, c) => changes[c].stratum !== undefined && isMissed(one))) count.within++;
  }
  const share = (n: number): number => (100 * n) / experiments;
  return { covered: share(count.covered), misses: share(count.misses), missesWithin: share(count.within) };
}
