import { cosOf, sinOf } from '../numbers/trigonometry.ts';

/**
 * Writes a root of unity exp(-2 pi i k / n), computed with angles of the first octant only: sine and cosine are
 * then right to the last bit or nearly, which is what keeps a long transform at a few 1e-16.
 *
 * @param k index of the root; a non-negative integer below 2^53 / 8
 * @param n number of roots
 * @param re receives the real part at `at`
 * @param im receives the imaginary part at `at`
 */
export function rootOfUnity(k: number, n: number, re: Float64Array, im: Float64Array, at: number): void {
  let eighths = 8 * (k % n);
  let octant = Math.floor(eighths / n);
  // Odd octants are mirrored, so that the angle is always measured from the nearest axis.
  eighths -= octant * n;
  const mirrored = octant % 2 === 1;
  const angle = ((mirrored ? n - eighths : eighths) / n) * (Math.PI / 4);
  const small = sinOf(angle);
  const large = cosOf(angle);
  if (mirrored) octant += 1;
  // The angle now is octant * 45 degrees plus (or, mirrored, minus) the small angle; octant is even.
  const signed = mirrored ? -small : small;
  const quarter = (octant / 2) % 4;
  re[at] = quarter === 0 ? large : quarter === 1 ? -signed : quarter === 2 ? -large : signed;
  im[at] = quarter === 0 ? -signed : quarter === 1 ? -large : quarter === 2 ? signed : large;
}
