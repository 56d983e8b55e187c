/**
 * Columns made orthonormal in turn; one that the others already span is left out.
 *
 * @param columns one number a run each
 * @param n number of runs
 * @throws RangeError where a column has not that many
 */
export function orthonormal(columns: readonly (readonly number[])[], n: number): Float64Array[] {
  const basis: Float64Array[] = [];
  for (const column of columns) {
    if (column.length !== n)
      throw new RangeError(`a column needs a number for each of ${n} runs, and has ${column.length}`);
    const size = Math.sqrt(dot(column, column));
    if (size === 0) continue;
    // Twice, for what rounding leaves of the first time.
    const rest = without(
      without(
        Float64Array.from(column, (value) => value / size),
        basis,
      ),
      basis,
    );
    const left = Math.sqrt(dot(rest, rest));
    if (left > 1e-9) basis.push(rest.map((value) => value / left));
  }
  return basis;
}

/** What of a column lies in none of others. @param basis the others, orthonormal, each as long */
export function without(column: Float64Array, basis: readonly Float64Array[]): Float64Array {
  const rest = column.slice();
  for (const q of basis) {
    const along = dot(q, rest);
    for (let i = 0; i < rest.length; i++) rest[i] -= along * q[i];
  }
  return rest;
}

/** The sum of products of two columns of one length. */
export function dot(one: ArrayLike<number>, other: ArrayLike<number>): number {
  let total = 0;
  for (let i = 0; i < one.length; i++) total += one[i] * other[i];
  return total;
}
