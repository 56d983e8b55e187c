/** A function's value and slope at a point. */
export interface Tangent {
  readonly value: number;
  readonly slope: number;
}

/**
 * The zero of a monotone function by Newton's steps, held inside the bracket that the signs seen so far give;
 * a step that would leave it is replaced by a halving, and steps outwards may at most double.
 *
 * @param f value and slope at u; the value may be infinite, far out
 * @param rising whether f rises with u
 * @param start where to begin, between low and high
 * @param low the zero is sought above this
 * @param high and below this
 * @returns the place of the zero, to some 1e-15; the nearer of low and high when it lies beyond
 */
export function solveMonotone(
  f: (u: number) => Tangent,
  rising: boolean,
  start: number,
  low: number,
  high: number,
): number {
  let [left, right, u, reach] = [low, high, start, 1];
  for (let step = 0; step < 400; step++) {
    const { value, slope } = f(u);
    if (value === 0) return u;
    const upwards = value < 0 === rising;
    if (upwards) left = u;
    else right = u;
    let move = -value / slope;
    if (!Number.isFinite(move) || move > 0 !== upwards) move = upwards ? reach : -reach;
    if (Math.abs(move) > reach) move = Math.sign(move) * reach;
    reach = Math.max(2 * Math.abs(move), 1e-3);
    let next = u + move;
    if (next <= left || next >= right) next = left + (right - left) / 2;
    // The error of a full step of Newton's squares: after one this small, the next would be below rounding.
    if (Math.abs(next - u) <= (next === u + move ? 1e-10 : 1e-15)) return next;
    u = next;
  }
  return u;
}
