import { pairFirst8, pairLast8 } from './pairEnds8.ts';
import type { Segment, Stage } from './stage.ts';
import { factorsOf, makeSmoothPlan, transformStages, type SmoothPlan } from './stockham.ts';
import { cosOf, sinOf } from '../numbers/trigonometry.ts';

/**
 * The inner loop of Welch's averages where the length allows: two real segments go through one complex transform,
 * whose first pass takes the samples themselves, less their mean and times the window, and whose last pass adds the
 * squares to the sum instead of storing what it squares.
 */
export interface PairPlan {
  readonly smooth: SmoothPlan;
  readonly first: Stage;
  readonly middle: readonly Stage[];
  readonly last: Stage;
}

/**
 * The passes for segments of a length.
 *
 * @param length samples a segment
 * @returns undefined where the first or the last pass is not one of those written out here
 */
export function pairPlan(length: number): PairPlan | undefined {
  const { radices, rest } = factorsOf(length);
  if (rest > 1 || radices.length < 2 || (radices[0] !== 4 && radices[0] !== 8)) return undefined;
  const smooth = makeSmoothPlan(length, radices);
  const last = smooth.stages[radices.length - 1];
  if (last.radix !== 8 && last.radix !== 4 && last.radix !== 5) return undefined;
  return { smooth, first: smooth.stages[0], middle: smooth.stages.slice(1, -1), last };
}

/**
 * Adds |Z|^2 of the transform Z of a's windowed segment as real and b's as imaginary part, each less its mean.
 *
 * @param samples of the signal, in which both segments lie
 * @param shape the window, of the plan's length
 * @param work two pairs of arrays of the plan's length, overwritten
 * @param power a sum for each of the transform's points, in unit^2, to which is added
 */
export function addPairPower(
  plan: PairPlan,
  samples: Float64Array,
  a: Segment,
  b: Segment,
  shape: Float64Array,
  work: readonly Float64Array[],
  power: Float64Array,
): void {
  const [re, im, spareRe, spareIm] = work;
  const firstPass = plan.first.radix === 8 ? pairFirst8 : first4;
  firstPass(plan.first, samples, a, b, shape, re, im);
  const swapped = transformStages(plan.middle, re, im, spareRe, spareIm);
  const lastPass = plan.last.radix === 8 ? pairLast8 : plan.last.radix === 4 ? last4 : last5;
  if (swapped) lastPass(plan.last.stride, spareRe, spareIm, power);
  else lastPass(plan.last.stride, re, im, power);
}

/** Radix 4 on columns of one sample, as `firstRadix4` of butterflies.ts, on windowed samples. */
function first4(
  { blocks, re, im }: Stage,
  x: Float64Array,
  { start: a, mean: aMean }: Segment,
  { start: b, mean: bMean }: Segment,
  shape: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
): void {
  for (let p = 0, o = 0, w = 0; p < blocks; p++, o += 4, w += 3) {
    const q = p + blocks;
    const r = q + blocks;
    const s = r + blocks;
    const w0 = shape[p];
    const w1 = shape[q];
    const w2 = shape[r];
    const w3 = shape[s];
    const ar = (x[a + p] - aMean) * w0;
    const ai = (x[b + p] - bMean) * w0;
    const br = (x[a + q] - aMean) * w1;
    const bi = (x[b + q] - bMean) * w1;
    const cr = (x[a + r] - aMean) * w2;
    const ci = (x[b + r] - bMean) * w2;
    const dr = (x[a + s] - aMean) * w3;
    const di = (x[b + s] - bMean) * w3;
    const sumAcR = ar + cr;
    const sumAcI = ai + ci;
    const difAcR = ar - cr;
    const difAcI = ai - ci;
    const sumBdR = br + dr;
    const sumBdI = bi + di;
    const difBdR = br - dr;
    const difBdI = bi - di;
    yr[o] = sumAcR + sumBdR;
    yi[o] = sumAcI + sumBdI;
    const b1r = difAcR + difBdI;
    const b1i = difAcI - difBdR;
    const b2r = sumAcR - sumBdR;
    const b2i = sumAcI - sumBdI;
    const b3r = difAcR - difBdI;
    const b3i = difAcI + difBdR;
    yr[o + 1] = b1r * re[w] - b1i * im[w];
    yi[o + 1] = b1r * im[w] + b1i * re[w];
    yr[o + 2] = b2r * re[w + 1] - b2i * im[w + 1];
    yi[o + 2] = b2r * im[w + 1] + b2i * re[w + 1];
    yr[o + 3] = b3r * re[w + 2] - b3i * im[w + 2];
    yi[o + 3] = b3r * im[w + 2] + b3i * re[w + 2];
  }
}

function last4(stride: number, xr: Float64Array, xi: Float64Array, power: Float64Array): void {
  for (let a = 0, b = stride, c = 2 * stride, d = 3 * stride; a < stride; a++, b++, c++, d++) {
    const sumAcR = xr[a] + xr[c];
    const sumAcI = xi[a] + xi[c];
    const difAcR = xr[a] - xr[c];
    const difAcI = xi[a] - xi[c];
    const sumBdR = xr[b] + xr[d];
    const sumBdI = xi[b] + xi[d];
    const difBdR = xr[b] - xr[d];
    const difBdI = xi[b] - xi[d];
    const y0r = sumAcR + sumBdR;
    const y0i = sumAcI + sumBdI;
    const y1r = difAcR + difBdI;
    const y1i = difAcI - difBdR;
    const y2r = sumAcR - sumBdR;
    const y2i = sumAcI - sumBdI;
    const y3r = difAcR - difBdI;
    const y3i = difAcI + difBdR;
    power[a] += y0r * y0r + y0i * y0i;
    power[b] += y1r * y1r + y1i * y1i;
    power[c] += y2r * y2r + y2i * y2i;
    power[d] += y3r * y3r + y3i * y3i;
  }
}

const cos1 = cosOf((2 * Math.PI) / 5);
const cos2 = cosOf((4 * Math.PI) / 5);
const sin1 = sinOf((2 * Math.PI) / 5);
const sin2 = sinOf((4 * Math.PI) / 5);

function last5(stride: number, xr: Float64Array, xi: Float64Array, power: Float64Array): void {
  for (let a = 0; a < stride; a++) {
    const b = a + stride;
    const c = b + stride;
    const d = c + stride;
    const e = d + stride;
    const zr = xr[a];
    const zi = xi[a];
    const s1r = xr[b] + xr[e];
    const s1i = xi[b] + xi[e];
    const d1r = xr[b] - xr[e];
    const d1i = xi[b] - xi[e];
    const s2r = xr[c] + xr[d];
    const s2i = xi[c] + xi[d];
    const d2r = xr[c] - xr[d];
    const d2i = xi[c] - xi[d];
    const y0r = zr + s1r + s2r;
    const y0i = zi + s1i + s2i;
    power[a] += y0r * y0r + y0i * y0i;
    const m1r = zr + cos1 * s1r + cos2 * s2r;
    const m1i = zi + cos1 * s1i + cos2 * s2i;
    const n1r = sin1 * d1r + sin2 * d2r;
    const n1i = sin1 * d1i + sin2 * d2i;
    power[b] += (m1r + n1i) * (m1r + n1i) + (m1i - n1r) * (m1i - n1r);
    power[e] += (m1r - n1i) * (m1r - n1i) + (m1i + n1r) * (m1i + n1r);
    const m2r = zr + cos2 * s1r + cos1 * s2r;
    const m2i = zi + cos2 * s1i + cos1 * s2i;
    const n2r = sin2 * d1r - sin1 * d2r;
    const n2i = sin2 * d1i - sin1 * d2i;
    power[c] += (m2r + n2i) * (m2r + n2i) + (m2i - n2r) * (m2i - n2r);
    power[d] += (m2r - n2i) * (m2r - n2i) + (m2i + n2r) * (m2i + n2r);
  }
}
