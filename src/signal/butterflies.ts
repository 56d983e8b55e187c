import { radix8 } from './radix8.ts';
import type { Stage } from './stage.ts';
import { rootOfUnity } from './twiddle.ts';
import { cosOf, sinOf } from '../numbers/trigonometry.ts';

/**
 * Carries out one pass of a transform, every butterfly of the stage's radix: 2, 3, 4, 5, 8, or any odd one.
 *
 * @param xr real parts that go in, as many as the transform has points; left as they are
 * @param xi imaginary parts that go in
 * @param yr receives the real parts; another array than xr
 * @param yi receives the imaginary parts; another array than xi
 */
export function pass(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  if (stage.radix === 4) {
    if (stage.blocks === 1) lastRadix4(stage.stride, xr, xi, yr, yi);
    else if (stage.stride === 1) firstRadix4(stage, xr, xi, yr, yi);
    else radix4(stage, xr, xi, yr, yi);
  } else if (stage.radix === 8) radix8(stage, xr, xi, yr, yi);
  else if (stage.radix === 2) radix2(stage, xr, xi, yr, yi);
  else if (stage.radix === 5) radix5(stage, xr, xi, yr, yi);
  else if (stage.radix === 3) radix3(stage, xr, xi, yr, yi);
  else radixOdd(stage, xr, xi, yr, yi);
}

function radix2(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  const { blocks, stride, re, im } = stage;
  const half = blocks * stride;
  for (let p = 0; p < blocks; p++) {
    const wr = re[p];
    const wi = im[p];
    let a = p * stride;
    let o = 2 * p * stride;
    for (let q = 0; q < stride; q++, a++, o++) {
      const ar = xr[a];
      const ai = xi[a];
      const br = xr[a + half];
      const bi = xi[a + half];
      yr[o] = ar + br;
      yi[o] = ai + bi;
      const dr = ar - br;
      const di = ai - bi;
      yr[o + stride] = dr * wr - di * wi;
      yi[o + stride] = dr * wi + di * wr;
    }
  }
}

function radix3(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  const { blocks, stride, re, im } = stage;
  const third = blocks * stride;
  const sine = Math.sqrt(3) / 2;
  for (let p = 0; p < blocks; p++) {
    const w1r = re[2 * p];
    const w1i = im[2 * p];
    const w2r = re[2 * p + 1];
    const w2i = im[2 * p + 1];
    let a = p * stride;
    let o = 3 * p * stride;
    for (let q = 0; q < stride; q++, a++, o++) {
      const ar = xr[a];
      const ai = xi[a];
      const sumR = xr[a + third] + xr[a + 2 * third];
      const sumI = xi[a + third] + xi[a + 2 * third];
      const difR = (xr[a + third] - xr[a + 2 * third]) * sine;
      const difI = (xi[a + third] - xi[a + 2 * third]) * sine;
      const midR = ar - 0.5 * sumR;
      const midI = ai - 0.5 * sumI;
      yr[o] = ar + sumR;
      yi[o] = ai + sumI;
      const b1r = midR + difI;
      const b1i = midI - difR;
      yr[o + stride] = b1r * w1r - b1i * w1i;
      yi[o + stride] = b1r * w1i + b1i * w1r;
      const b2r = midR - difI;
      const b2i = midI + difR;
      yr[o + 2 * stride] = b2r * w2r - b2i * w2i;
      yi[o + 2 * stride] = b2r * w2i + b2i * w2r;
    }
  }
}

/** The first pass has one column a block, for which an inner loop would cost more than its work. */
function firstRadix4(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  const { blocks, re, im } = stage;
  for (let p = 0, o = 0, w = 0; p < blocks; p++, o += 4, w += 3) {
    const ar = xr[p];
    const ai = xi[p];
    const br = xr[p + blocks];
    const bi = xi[p + blocks];
    const cr = xr[p + 2 * blocks];
    const ci = xi[p + 2 * blocks];
    const dr = xr[p + 3 * blocks];
    const di = xi[p + 3 * blocks];
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

function radix4(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  const { blocks, stride, re, im } = stage;
  const quarter = blocks * stride;
  for (let p = 0; p < blocks; p++) {
    const w1r = re[3 * p];
    const w1i = im[3 * p];
    const w2r = re[3 * p + 1];
    const w2i = im[3 * p + 1];
    const w3r = re[3 * p + 2];
    const w3i = im[3 * p + 2];
    let a = p * stride;
    let o = 4 * p * stride;
    for (let q = 0; q < stride; q++, a++, o++) {
      const sumAcR = xr[a] + xr[a + 2 * quarter];
      const sumAcI = xi[a] + xi[a + 2 * quarter];
      const difAcR = xr[a] - xr[a + 2 * quarter];
      const difAcI = xi[a] - xi[a + 2 * quarter];
      const sumBdR = xr[a + quarter] + xr[a + 3 * quarter];
      const sumBdI = xi[a + quarter] + xi[a + 3 * quarter];
      const difBdR = xr[a + quarter] - xr[a + 3 * quarter];
      const difBdI = xi[a + quarter] - xi[a + 3 * quarter];
      yr[o] = sumAcR + sumBdR;
      yi[o] = sumAcI + sumBdI;
      const b1r = difAcR + difBdI;
      const b1i = difAcI - difBdR;
      yr[o + stride] = b1r * w1r - b1i * w1i;
      yi[o + stride] = b1r * w1i + b1i * w1r;
      const b2r = sumAcR - sumBdR;
      const b2i = sumAcI - sumBdI;
      yr[o + 2 * stride] = b2r * w2r - b2i * w2i;
      yi[o + 2 * stride] = b2r * w2i + b2i * w2r;
      const b3r = difAcR - difBdI;
      const b3i = difAcI + difBdR;
      yr[o + 3 * stride] = b3r * w3r - b3i * w3i;
      yi[o + 3 * stride] = b3r * w3i + b3i * w3r;
    }
  }
}

/** The last pass has one block, whose factors are all 1. */
function lastRadix4(stride: number, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  for (let a = 0; a < stride; a++) {
    const sumAcR = xr[a] + xr[a + 2 * stride];
    const sumAcI = xi[a] + xi[a + 2 * stride];
    const difAcR = xr[a] - xr[a + 2 * stride];
    const difAcI = xi[a] - xi[a + 2 * stride];
    const sumBdR = xr[a + stride] + xr[a + 3 * stride];
    const sumBdI = xi[a + stride] + xi[a + 3 * stride];
    const difBdR = xr[a + stride] - xr[a + 3 * stride];
    const difBdI = xi[a + stride] - xi[a + 3 * stride];
    yr[a] = sumAcR + sumBdR;
    yi[a] = sumAcI + sumBdI;
    yr[a + stride] = difAcR + difBdI;
    yi[a + stride] = difAcI - difBdR;
    yr[a + 2 * stride] = sumAcR - sumBdR;
    yi[a + 2 * stride] = sumAcI - sumBdI;
    yr[a + 3 * stride] = difAcR - difBdI;
    yi[a + 3 * stride] = difAcI + difBdR;
  }
}

const cos1 = cosOf((2 * Math.PI) / 5);
const cos2 = cosOf((4 * Math.PI) / 5);
const sin1 = sinOf((2 * Math.PI) / 5);
const sin2 = sinOf((4 * Math.PI) / 5);

function radix5(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  const { blocks, stride, re, im } = stage;
  const fifth = blocks * stride;
  for (let p = 0, w = 0; p < blocks; p++, w += 4) {
    const w1r = re[w];
    const w1i = im[w];
    const w2r = re[w + 1];
    const w2i = im[w + 1];
    const w3r = re[w + 2];
    const w3i = im[w + 2];
    const w4r = re[w + 3];
    const w4i = im[w + 3];
    let a = p * stride;
    let o = 5 * p * stride;
    for (let q = 0; q < stride; q++, a++, o++) {
      const zr = xr[a];
      const zi = xi[a];
      const s1r = xr[a + fifth] + xr[a + 4 * fifth];
      const s1i = xi[a + fifth] + xi[a + 4 * fifth];
      const d1r = xr[a + fifth] - xr[a + 4 * fifth];
      const d1i = xi[a + fifth] - xi[a + 4 * fifth];
      const s2r = xr[a + 2 * fifth] + xr[a + 3 * fifth];
      const s2i = xi[a + 2 * fifth] + xi[a + 3 * fifth];
      const d2r = xr[a + 2 * fifth] - xr[a + 3 * fifth];
      const d2i = xi[a + 2 * fifth] - xi[a + 3 * fifth];
      yr[o] = zr + s1r + s2r;
      yi[o] = zi + s1i + s2i;
      const m1r = zr + cos1 * s1r + cos2 * s2r;
      const m1i = zi + cos1 * s1i + cos2 * s2i;
      const n1r = sin1 * d1r + sin2 * d2r;
      const n1i = sin1 * d1i + sin2 * d2i;
      const m2r = zr + cos2 * s1r + cos1 * s2r;
      const m2i = zi + cos2 * s1i + cos1 * s2i;
      const n2r = sin2 * d1r - sin1 * d2r;
      const n2i = sin2 * d1i - sin1 * d2i;
      yr[o + stride] = (m1r + n1i) * w1r - (m1i - n1r) * w1i;
      yi[o + stride] = (m1r + n1i) * w1i + (m1i - n1r) * w1r;
      yr[o + 2 * stride] = (m2r + n2i) * w2r - (m2i - n2r) * w2i;
      yi[o + 2 * stride] = (m2r + n2i) * w2i + (m2i - n2r) * w2r;
      yr[o + 3 * stride] = (m2r - n2i) * w3r - (m2i + n2r) * w3i;
      yi[o + 3 * stride] = (m2r - n2i) * w3i + (m2i + n2r) * w3r;
      yr[o + 4 * stride] = (m1r - n1i) * w4r - (m1i + n1r) * w4i;
      yi[o + 4 * stride] = (m1r - n1i) * w4i + (m1i + n1r) * w4r;
    }
  }
}

/** Any odd radix by its defining sums, opposite terms taken together; for the primes from 7. */
function radixOdd(stage: Stage, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  const { radix, blocks, stride, re, im } = stage;
  const part = blocks * stride;
  const half = (radix - 1) / 2;
  const [cos, sin] = rootsOf(radix);
  const sumR = new Float64Array(half + 1);
  const sumI = new Float64Array(half + 1);
  const difR = new Float64Array(half + 1);
  const difI = new Float64Array(half + 1);
  for (let p = 0; p < blocks; p++) {
    const w = p * (radix - 1) - 1;
    for (let q = 0; q < stride; q++) {
      const a = p * stride + q;
      const o = radix * p * stride + q;
      const zr = xr[a];
      const zi = xi[a];
      let totalR = zr;
      let totalI = zi;
      for (let j = 1; j <= half; j++) {
        const b = a + j * part;
        const c = a + (radix - j) * part;
        totalR += sumR[j] = xr[b] + xr[c];
        totalI += sumI[j] = xi[b] + xi[c];
        difR[j] = xr[b] - xr[c];
        difI[j] = xi[b] - xi[c];
      }
      yr[o] = totalR;
      yi[o] = totalI;
      for (let k = 1; k <= half; k++) {
        let mr = zr;
        let mi = zi;
        let nr = 0;
        let ni = 0;
        for (let j = 1, t = k; j <= half; j++, t = t + k < radix ? t + k : t + k - radix) {
          mr += cos[t] * sumR[j];
          mi += cos[t] * sumI[j];
          nr += sin[t] * difR[j];
          ni += sin[t] * difI[j];
        }
        const up = o + k * stride;
        const down = o + (radix - k) * stride;
        yr[up] = (mr + ni) * re[w + k] - (mi - nr) * im[w + k];
        yi[up] = (mr + ni) * im[w + k] + (mi - nr) * re[w + k];
        const l = w + radix - k;
        yr[down] = (mr - ni) * re[l] - (mi + nr) * im[l];
        yi[down] = (mr - ni) * im[l] + (mi + nr) * re[l];
      }
    }
  }
}

const roots = new Map<number, readonly [cos: Float64Array, sin: Float64Array]>();

/** Cosine and sine of 2 pi t / n for t = 0 … n - 1. */
function rootsOf(n: number): readonly [cos: Float64Array, sin: Float64Array] {
  const known = roots.get(n);
  if (known !== undefined) return known;
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  for (let t = 0; t < n; t++) rootOfUnity(t, n, cos, sin, t);
  const made = [cos, sin.map((value) => -value)] as const;
  roots.set(n, made);
  return made;
}
