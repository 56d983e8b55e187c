import type { Segment, Stage } from './stage.ts';

/**
 * The first pass of a pair's transform by radix 8, on the windowed samples themselves; as `radix8` one straight line
 * of arithmetic on purpose.
 *
 * @param x samples of the signal, in which both segments lie
 * @param a segment that becomes the real part, less its mean
 * @param b segment that becomes the imaginary part, less its mean
 * @param shape the window, as long as a segment
 * @param yr receives the real parts
 * @param yi receives the imaginary parts
 */
export function pairFirst8(
  { blocks, re, im }: Stage,
  x: Float64Array,
  { start: a, mean: aMean }: Segment,
  { start: b, mean: bMean }: Segment,
  shape: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
): void {
  for (let p = 0, o = 0, w = 0; p < blocks; p++, o += 8, w += 7) {
    const w0 = shape[p];
    const w1 = shape[p + blocks];
    const w2 = shape[p + 2 * blocks];
    const w3 = shape[p + 3 * blocks];
    const w4 = shape[p + 4 * blocks];
    const w5 = shape[p + 5 * blocks];
    const w6 = shape[p + 6 * blocks];
    const w7 = shape[p + 7 * blocks];
    const a0 = (x[a + p] - aMean) * w0;
    const a4 = (x[a + p + 4 * blocks] - aMean) * w4;
    const s0r = a0 + a4;
    const d0r = a0 - a4;
    const b0 = (x[b + p] - bMean) * w0;
    const b4 = (x[b + p + 4 * blocks] - bMean) * w4;
    const s0i = b0 + b4;
    const d0i = b0 - b4;
    const a1 = (x[a + p + blocks] - aMean) * w1;
    const a5 = (x[a + p + 5 * blocks] - aMean) * w5;
    const s1r = a1 + a5;
    const d1r = a1 - a5;
    const b1 = (x[b + p + blocks] - bMean) * w1;
    const b5 = (x[b + p + 5 * blocks] - bMean) * w5;
    const s1i = b1 + b5;
    const d1i = b1 - b5;
    const a2 = (x[a + p + 2 * blocks] - aMean) * w2;
    const a6 = (x[a + p + 6 * blocks] - aMean) * w6;
    const s2r = a2 + a6;
    const d2r = a2 - a6;
    const b2 = (x[b + p + 2 * blocks] - bMean) * w2;
    const b6 = (x[b + p + 6 * blocks] - bMean) * w6;
    const s2i = b2 + b6;
    const d2i = b2 - b6;
    const a3 = (x[a + p + 3 * blocks] - aMean) * w3;
    const a7 = (x[a + p + 7 * blocks] - aMean) * w7;
    const s3r = a3 + a7;
    const d3r = a3 - a7;
    const b3 = (x[b + p + 3 * blocks] - bMean) * w3;
    const b7 = (x[b + p + 7 * blocks] - bMean) * w7;
    const s3i = b3 + b7;
    const d3i = b3 - b7;
    const t0r = s0r + s2r;
    const t0i = s0i + s2i;
    const t1r = s0r - s2r;
    const t1i = s0i - s2i;
    const t2r = s1r + s3r;
    const t2i = s1i + s3i;
    const t3r = s1i - s3i;
    const t3i = s3r - s1r;
    yr[o] = t0r + t2r;
    yi[o] = t0i + t2i;
    const y4r = t0r - t2r;
    const y4i = t0i - t2i;
    yr[o + 4] = y4r * re[w + 3] - y4i * im[w + 3];
    yi[o + 4] = y4r * im[w + 3] + y4i * re[w + 3];
    const y2r = t1r + t3r;
    const y2i = t1i + t3i;
    yr[o + 2] = y2r * re[w + 1] - y2i * im[w + 1];
    yi[o + 2] = y2r * im[w + 1] + y2i * re[w + 1];
    const y6r = t1r - t3r;
    const y6i = t1i - t3i;
    yr[o + 6] = y6r * re[w + 5] - y6i * im[w + 5];
    yi[o + 6] = y6r * im[w + 5] + y6i * re[w + 5];
    const e1r = (d1r + d1i) * Math.SQRT1_2;
    const e1i = (d1i - d1r) * Math.SQRT1_2;
    const e3r = (d3i - d3r) * Math.SQRT1_2;
    const e3i = -(d3r + d3i) * Math.SQRT1_2;
    const u0r = d0r + d2i;
    const u0i = d0i - d2r;
    const u1r = d0r - d2i;
    const u1i = d0i + d2r;
    const u2r = e1r + e3r;
    const u2i = e1i + e3i;
    const u3r = e1i - e3i;
    const u3i = e3r - e1r;
    const y1r = u0r + u2r;
    const y1i = u0i + u2i;
    yr[o + 1] = y1r * re[w] - y1i * im[w];
    yi[o + 1] = y1r * im[w] + y1i * re[w];
    const y5r = u0r - u2r;
    const y5i = u0i - u2i;
    yr[o + 5] = y5r * re[w + 4] - y5i * im[w + 4];
    yi[o + 5] = y5r * im[w + 4] + y5i * re[w + 4];
    const y3r = u1r + u3r;
    const y3i = u1i + u3i;
    yr[o + 3] = y3r * re[w + 2] - y3i * im[w + 2];
    yi[o + 3] = y3r * im[w + 2] + y3i * re[w + 2];
    const y7r = u1r - u3r;
    const y7i = u1i - u3i;
    yr[o + 7] = y7r * re[w + 6] - y7i * im[w + 6];
    yi[o + 7] = y7r * im[w + 6] + y7i * re[w + 6];
  }
}

/**
 * The last pass of a pair's transform by radix 8: adds the squares of what it would store.
 *
 * @param stride columns of the pass, an eighth of the points
 * @param xr real parts that go in
 * @param xi imaginary parts that go in
 * @param power a sum for each point, to which |Z|^2 is added
 */
export function pairLast8(stride: number, xr: Float64Array, xi: Float64Array, power: Float64Array): void {
  for (let a = 0; a < stride; a++) {
    const s0r = xr[a] + xr[a + 4 * stride];
    const s0i = xi[a] + xi[a + 4 * stride];
    const d0r = xr[a] - xr[a + 4 * stride];
    const d0i = xi[a] - xi[a + 4 * stride];
    const s1r = xr[a + stride] + xr[a + 5 * stride];
    const s1i = xi[a + stride] + xi[a + 5 * stride];
    const d1r = xr[a + stride] - xr[a + 5 * stride];
    const d1i = xi[a + stride] - xi[a + 5 * stride];
    const s2r = xr[a + 2 * stride] + xr[a + 6 * stride];
    const s2i = xi[a + 2 * stride] + xi[a + 6 * stride];
    const d2r = xr[a + 2 * stride] - xr[a + 6 * stride];
    const d2i = xi[a + 2 * stride] - xi[a + 6 * stride];
    const s3r = xr[a + 3 * stride] + xr[a + 7 * stride];
    const s3i = xi[a + 3 * stride] + xi[a + 7 * stride];
    const d3r = xr[a + 3 * stride] - xr[a + 7 * stride];
    const d3i = xi[a + 3 * stride] - xi[a + 7 * stride];
    const t0r = s0r + s2r;
    const t0i = s0i + s2i;
    const t1r = s0r - s2r;
    const t1i = s0i - s2i;
    const t2r = s1r + s3r;
    const t2i = s1i + s3i;
    const t3r = s1i - s3i;
    const t3i = s3r - s1r;
    power[a] += (t0r + t2r) ** 2 + (t0i + t2i) ** 2;
    power[a + 4 * stride] += (t0r - t2r) ** 2 + (t0i - t2i) ** 2;
    power[a + 2 * stride] += (t1r + t3r) ** 2 + (t1i + t3i) ** 2;
    power[a + 6 * stride] += (t1r - t3r) ** 2 + (t1i - t3i) ** 2;
    const e1r = (d1r + d1i) * Math.SQRT1_2;
    const e1i = (d1i - d1r) * Math.SQRT1_2;
    const e3r = (d3i - d3r) * Math.SQRT1_2;
    const e3i = -(d3r + d3i) * Math.SQRT1_2;
    const u0r = d0r + d2i;
    const u0i = d0i - d2r;
    const u1r = d0r - d2i;
    const u1i = d0i + d2r;
    const u2r = e1r + e3r;
    const u2i = e1i + e3i;
    const u3r = e1i - e3i;
    const u3i = e3r - e1r;
    power[a + stride] += (u0r + u2r) ** 2 + (u0i + u2i) ** 2;
    power[a + 5 * stride] += (u0r - u2r) ** 2 + (u0i - u2i) ** 2;
    power[a + 3 * stride] += (u1r + u3r) ** 2 + (u1i + u3i) ** 2;
    power[a + 7 * stride] += (u1r - u3r) ** 2 + (u1i - u3i) ** 2;
  }
}
