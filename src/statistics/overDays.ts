import type { GroupContrast } from './contrast.ts';
import { ifScattered } from './estimate.ts';
import type { Change, KnownRun } from './knownRun.ts';
import { meanAndVariance } from './summary.ts';

/**
 * The change as it is on days like these: each day's own change, the mean of its strata's, and Student's t over the days.
 * What scatters from day to day is in its error, so that it speaks of other days, too.
 *
 * @param runs of which every one has a day; each day has runs of both conditions in each of its strata
 * @returns undefined of a single day
 */
export function overDays(runs: readonly KnownRun[], change: Change): GroupContrast | undefined {
  const own = runs.map((run, index) => ({ ...run, index })).filter(({ isReference }) => isReference !== true);
  const days = [...new Set(own.map(({ day }) => day))];
  if (days.length < 2) return undefined;
  const perDay = days.map((day) =>
    dayWeights(
      own.filter((run) => run.day === day),
      change,
      runs.length,
    ),
  );
  const weights = new Float64Array(runs.length);
  for (const ofDay of perDay) ofDay.forEach((weight, i) => (weights[i] += weight / days.length));
  return {
    weights,
    nuisance: [],
    varianceInflation: 1,
    estimate: (y) => {
      const changes = perDay.map((ofDay) => ofDay.reduce((sum, weight, i) => sum + weight * y[i], 0));
      const { mean, variance, n } = meanAndVariance(changes);
      return ifScattered({ difference: mean, standardError: Math.sqrt(variance / n), df: n - 1 });
    },
  };
}

/** Weights of one day's runs in its change. */
function dayWeights(
  own: readonly (KnownRun & { readonly index: number })[],
  { from, to }: Change,
  length: number,
): Float64Array {
  const weights = new Float64Array(length);
  const strata = [...new Set(own.filter(({ condition }) => condition === to).map(({ stratum }) => stratum))];
  for (const stratum of strata) {
    for (const [condition, sign] of [
      [from, -1],
      [to, 1],
    ] as const) {
      const cell = own.filter((run) => run.stratum === stratum && run.condition === condition);
      for (const { index } of cell) weights[index] = sign / (strata.length * cell.length);
    }
  }
  return weights;
}

/**
 * Whether one condition came first on every day, so that a drift within the day cannot be told from the change.
 *
 * @param runs each with its place
 */
export function isFirstOnEveryDay(runs: readonly KnownRun[], { from, to }: Change): boolean {
  const strata = [...new Set(runs.map(({ stratum }) => stratum))];
  const turns = strata.map((stratum) => {
    const [a, b] = [from, to].map((condition) =>
      runs.filter((run) => run.stratum === stratum && run.condition === condition).map(({ place = NaN }) => place),
    );
    if (Math.max(...a) < Math.min(...b)) return 'a';
    return Math.max(...b) < Math.min(...a) ? 'b' : 'mixed';
  });
  return turns[0] !== 'mixed' && turns.every((turn) => turn === turns[0]);
}
