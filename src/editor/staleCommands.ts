/** Runs what is out of date in a notebook. */
export const runStale = 'washboard.runStale';

/**
 * The same for the notebook's toolbar. A title there can't change, so that each count of cells from 1 to 9 has a
 * command whose title says it, and the last one is for all higher counts. The manifest shows the one that fits
 * `outOfDate`.
 */
export const runStaleByCount: readonly string[] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 'Many'].map(
  (count) => `${runStale}${count}`,
);

/** The context key that holds how many cells of the shown notebook are out of date. */
export const outOfDate = 'washboard.outOfDate';
