/**
 * Vector sum of axes at right angles, sqrt(x^2 + y^2 + z^2), sample by sample.
 *
 * @param axes at least one, all of the same length and unit
 * @param into receives the sum; may be one of the axes; made if not given
 * @returns `into`, in the axes' unit, never negative
 * @throws RangeError for no axes, or axes of different lengths
 */
export function resultant(axes: readonly Float64Array[], into = new Float64Array(axes[0]?.length ?? 0)): Float64Array {
  if (axes.length === 0) throw new RangeError('a resultant needs at least one axis');
  if (axes.some((axis) => axis.length !== axes[0].length))
    throw new RangeError('the axes of a resultant have different lengths');
  for (let i = 0; i < into.length; i++) {
    let sum = 0;
    for (const axis of axes) sum += axis[i] * axis[i];
    into[i] = Math.sqrt(sum);
  }
  return into;
}
