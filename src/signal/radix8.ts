import type { Stage } from './stage.ts';

/**
 * One pass of radix 8, as two of radix 4: the sums of opposite columns give the even outputs, their differences,
 * turned by eighths of a circle, the odd ones (Van Loan 1992, Computational Frameworks for the FFT, 2.4). One straight
 * line of arithmetic on purpose: to part it into smaller functions would send its sixteen values through memory, which
 * costs the third that this radix gains over radix 4.
 *
 * @param xr real parts that go in, as many as the transform has points; left as they are
 * @param xi imaginary parts that go in
 * @param yr receives the real parts; another array than xr
 * @param yi receives the imaginary parts; another array than xi
 */
export function radix8(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  const { blocks, stride, re, im } = stage;
  const part = blocks * stride;
  for (let p = 0, w = 0; p < blocks; p++, w += 7) {
    const w1r = re[w];
    const w1i = im[w];
    const w2r = re[w + 1];
    const w2i = im[w + 1];
    const w3r = re[w + 2];
    const w3i = im[w + 2];
    const w4r = re[w + 3];
    const w4i = im[w + 3];
    const w5r = re[w + 4];
    const w5i = im[w + 4];
    const w6r = re[w + 5];
    const w6i = im[w + 5];
    const w7r = re[w + 6];
    const w7i = im[w + 6];
    for (let q = 0, a = p * stride, o = 8 * p * stride; q < stride; q++, a++, o++) {
      const s0r = xr[a] + xr[a + 4 * part];
      const s0i = xi[a] + xi[a + 4 * part];
      const d0r = xr[a] - xr[a + 4 * part];
      const d0i = xi[a] - xi[a + 4 * part];
      const s1r = xr[a + part] + xr[a + 5 * part];
      const s1i = xi[a + part] + xi[a + 5 * part];
      const d1r = xr[a + part] - xr[a + 5 * part];
      const d1i = xi[a + part] - xi[a + 5 * part];
      const s2r = xr[a + 2 * part] + xr[a + 6 * part];
      const s2i = xi[a + 2 * part] + xi[a + 6 * part];
      const d2r = xr[a + 2 * part] - xr[a + 6 * part];
      const d2i = xi[a + 2 * part] - xi[a + 6 * part];
      const s3r = xr[a + 3 * part] + xr[a + 7 * part];
      const s3i = xi[a + 3 * part] + xi[a + 7 * part];
      const d3r = xr[a + 3 * part] - xr[a + 7 * part];
      const d3i = xi[a + 3 * part] - xi[a + 7 * part];
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
      const b4r = t0r - t2r;
      const b4i = t0i - t2i;
      yr[o + 4 * stride] = b4r * w4r - b4i * w4i;
      yi[o + 4 * stride] = b4r * w4i + b4i * w4r;
      const b2r = t1r + t3r;
      const b2i = t1i + t3i;
      yr[o + 2 * stride] = b2r * w2r - b2i * w2i;
      yi[o + 2 * stride] = b2r * w2i + b2i * w2r;
      const b6r = t1r - t3r;
      const b6i = t1i - t3i;
      yr[o + 6 * stride] = b6r * w6r - b6i * w6i;
      yi[o + 6 * stride] = b6r * w6i + b6i * w6r;
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
      const b1r = u0r + u2r;
      const b1i = u0i + u2i;
      yr[o + stride] = b1r * w1r - b1i * w1i;
      yi[o + stride] = b1r * w1i + b1i * w1r;
      const b5r = u0r - u2r;
      const b5i = u0i - u2i;
      yr[o + 5 * stride] = b5r * w5r - b5i * w5i;
      yi[o + 5 * stride] = b5r * w5i + b5i * w5r;
      const b3r = u1r + u3r;
      const b3i = u1i + u3i;
      yr[o + 3 * stride] = b3r * w3r - b3i * w3i;
      yi[o + 3 * stride] = b3r * w3i + b3i * w3r;
      const b7r = u1r - u3r;
      const b7i = u1i - u3i;
      yr[o + 7 * stride] = b7r * w7r - b7i * w7i;
      yi[o + 7 * stride] = b7r * w7i + b7i * w7r;
    }
  }
}
