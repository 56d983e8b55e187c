/**
 * Holm's step-down adjustment for a family of tests (Holm 1979, Scand. J. Statist. 6): the i-th smallest of k becomes
 * the largest of min(1, (k - j + 1) p_(j)) over j <= i. Comparing it with alpha keeps the chance of any false alarm
 * below alpha, however the tests hang together.
 *
 * @param p two-sided p of each test, each in [0, 1]
 * @returns the adjusted p, in the order given
 * @throws RangeError for a p that is no probability
 */
export function holm(p: readonly number[]): number[] {
  const wrong = p.find((value) => !(value >= 0 && value <= 1));
  if (wrong !== undefined) throw new RangeError(`p must lie between 0 and 1, but one is ${wrong}`);
  const rank = p.map((_, index) => index).sort((i, j) => p[i] - p[j]);
  const adjusted = new Array<number>(p.length);
  let largest = 0;
  rank.forEach((index, place) => {
    largest = Math.max(largest, Math.min(1, (p.length - place) * p[index]));
    adjusted[index] = largest;
  });
  return adjusted;
}
