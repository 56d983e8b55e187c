import { makeConvolution, transformColumns, type Convolution } from './bluestein.ts';
import { scratchArrays } from './scratch.ts';
import { factorsOf, makeSmoothPlan, transformSmooth, type SmoothPlan } from './stockham.ts';

/**
 * A complex transform of any length: passes of small radices and, where larger primes divide the length, transforms of
 * the columns that these leave, in place of the last pass.
 */
export interface AnyPlan extends SmoothPlan {
  /** Columns of the convolution, the product of the radices. */
  readonly columns: number;
  readonly convolution: Convolution | undefined;
}

/**
 * The steps of a transform, with their tables.
 *
 * @param length points, a whole number from 1
 */
export function planOf(length: number): AnyPlan {
  const { radices, rest } = factorsOf(length);
  const convolution = rest === 1 ? undefined : makeConvolution(rest);
  return { ...makeSmoothPlan(length, radices), columns: length / rest, convolution };
}

/** A forward transform as `transformSmooth` makes it, of any plan. It has scratch of its own. */
export type Transform = (re: Float64Array, im: Float64Array, spareRe: Float64Array, spareIm: Float64Array) => boolean;

/** The transform by a plan. */
export function transformBy(plan: AnyPlan): Transform {
  const { columns, convolution } = plan;
  if (convolution === undefined) return transformSmooth.bind(undefined, plan);
  const scratch = scratchArrays(4, convolution.padded.length);
  return (re, im, spareRe, spareIm) => {
    const inSpare = transformSmooth(plan, re, im, spareRe, spareIm);
    if (inSpare) transformColumns(convolution, scratch, columns, spareRe, spareIm);
    else transformColumns(convolution, scratch, columns, re, im);
    return inSpare;
  };
}
