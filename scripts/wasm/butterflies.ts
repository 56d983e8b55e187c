// The passes of a transform in AssemblyScript, as src/signal/butterflies.ts and radix8.ts have them, for two complex
// transforms side by side in the lanes of vectors (see vectors.ts).

import { add, butterfly4, im, mul, put, putTurned, re, splat, sub, word } from './vectors';

/**
 * Passes between two places in turn; gives the one in which the result stands.
 *
 * stages: for each pass the radix, blocks, stride, and the addresses of its factors and its roots, five words each.
 * terms: place for four vectors a pair of terms of an odd radix.
 */
export function passes(stages: usize, count: i32, x: usize, y: usize, terms: usize): usize {
  for (let s = 0; s < count; s++, stages += 20) {
    const radix = word(stages, 0);
    const blocks = word(stages, 1);
    const stride = word(stages, 2);
    const factors = word(stages, 3);
    if (radix == 4) radix4(blocks, stride, factors, x, y);
    else if (radix == 2) radix2(blocks, stride, factors, x, y);
    else if (radix == 8) radix8(blocks, stride, factors, x, y);
    else if (radix == 3) radix3(blocks, stride, factors, word(stages, 4), x, y);
    else if (radix == 5) radix5(blocks, stride, factors, word(stages, 4), x, y);
    else radixOdd(radix, blocks, stride, factors, word(stages, 4), x, y, terms);
    const held = x;
    x = y;
    y = held;
  }
  return x;
}

function radix2(blocks: i32, stride: i32, factors: usize, x: usize, y: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  for (let p = 0; p < blocks; p++, factors += 16, y += step) {
    for (const end = x + step; x < end; x += 32, y += 32) {
      const b = x + part;
      put(y, add(re(x), re(b)), add(im(x), im(b)));
      putTurned(y + step, sub(re(x), re(b)), sub(im(x), im(b)), factors);
    }
  }
}

function radix4(blocks: i32, stride: i32, factors: usize, x: usize, y: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  for (let p = 0; p < blocks; p++, factors += 48, y += 3 * step) {
    for (const end = x + step; x < end; x += 32, y += 32) butterfly4(x, part, y, step, factors);
  }
}

/** `roots` holds cosine and sine of 2 pi t / 3. */
function radix3(blocks: i32, stride: i32, factors: usize, roots: usize, x: usize, y: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  const cos = splat(roots + 16);
  const sin = splat(roots + 24);
  for (let p = 0; p < blocks; p++, factors += 32, y += 2 * step) {
    for (const end = x + step; x < end; x += 32, y += 32) {
      const b = x + part;
      const c = b + part;
      const sumR = add(re(b), re(c));
      const sumI = add(im(b), im(c));
      const mr = add(re(x), mul(cos, sumR));
      const mi = add(im(x), mul(cos, sumI));
      const nr = mul(sin, sub(re(b), re(c)));
      const ni = mul(sin, sub(im(b), im(c)));
      put(y, add(re(x), sumR), add(im(x), sumI));
      putTurned(y + step, add(mr, ni), sub(mi, nr), factors);
      putTurned(y + 2 * step, sub(mr, ni), add(mi, nr), factors + 16);
    }
  }
}

/** `roots` holds cosine and sine of 2 pi t / 5. */
function radix5(blocks: i32, stride: i32, factors: usize, roots: usize, x: usize, y: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  const cos1 = splat(roots + 16);
  const sin1 = splat(roots + 24);
  const cos2 = splat(roots + 32);
  const sin2 = splat(roots + 40);
  for (let p = 0; p < blocks; p++, factors += 64, y += 4 * step) {
    for (const end = x + step; x < end; x += 32, y += 32) {
      const b = x + part;
      const c = b + part;
      const d = c + part;
      const e = d + part;
      const s1r = add(re(b), re(e));
      const s1i = add(im(b), im(e));
      const s2r = add(re(c), re(d));
      const s2i = add(im(c), im(d));
      put(y, add(re(x), add(s1r, s2r)), add(im(x), add(s1i, s2i)));
      const d1r = sub(re(b), re(e));
      const d1i = sub(im(b), im(e));
      const d2r = sub(re(c), re(d));
      const d2i = sub(im(c), im(d));
      const m1r = add(re(x), add(mul(cos1, s1r), mul(cos2, s2r)));
      const m1i = add(im(x), add(mul(cos1, s1i), mul(cos2, s2i)));
      const n1r = add(mul(sin1, d1r), mul(sin2, d2r));
      const n1i = add(mul(sin1, d1i), mul(sin2, d2i));
      putTurned(y + step, add(m1r, n1i), sub(m1i, n1r), factors);
      putTurned(y + 4 * step, sub(m1r, n1i), add(m1i, n1r), factors + 48);
      const m2r = add(re(x), add(mul(cos2, s1r), mul(cos1, s2r)));
      const m2i = add(im(x), add(mul(cos2, s1i), mul(cos1, s2i)));
      const n2r = sub(mul(sin2, d1r), mul(sin1, d2r));
      const n2i = sub(mul(sin2, d1i), mul(sin1, d2i));
      putTurned(y + 2 * step, add(m2r, n2i), sub(m2i, n2r), factors + 16);
      putTurned(y + 3 * step, sub(m2r, n2i), add(m2i, n2r), factors + 32);
    }
  }
}

/** As radix8.ts of src/signal: halves of a butterfly of radix 8 of sums and differences of numbers half a turn apart. */
function radix8(blocks: i32, stride: i32, factors: usize, x: usize, y: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  const root = f64x2.splat(Math.SQRT1_2);
  for (let p = 0; p < blocks; p++, factors += 112, y += 7 * step) {
    for (const end = x + step; x < end; x += 32, y += 32) {
      const x1 = x + part;
      const x2 = x1 + part;
      const x3 = x2 + part;
      const x4 = x3 + part;
      const x5 = x4 + part;
      const x6 = x5 + part;
      const x7 = x6 + part;
      const s0r = add(re(x), re(x4));
      const s0i = add(im(x), im(x4));
      const s2r = add(re(x2), re(x6));
      const s2i = add(im(x2), im(x6));
      const t0r = add(s0r, s2r);
      const t0i = add(s0i, s2i);
      const t1r = sub(s0r, s2r);
      const t1i = sub(s0i, s2i);
      const s1r = add(re(x1), re(x5));
      const s1i = add(im(x1), im(x5));
      const s3r = add(re(x3), re(x7));
      const s3i = add(im(x3), im(x7));
      const t2r = add(s1r, s3r);
      const t2i = add(s1i, s3i);
      const t3r = sub(s1i, s3i);
      const t3i = sub(s3r, s1r);
      put(y, add(t0r, t2r), add(t0i, t2i));
      putTurned(y + 4 * step, sub(t0r, t2r), sub(t0i, t2i), factors + 48);
      putTurned(y + 2 * step, add(t1r, t3r), add(t1i, t3i), factors + 16);
      putTurned(y + 6 * step, sub(t1r, t3r), sub(t1i, t3i), factors + 80);
      const d1r = sub(re(x1), re(x5));
      const d1i = sub(im(x1), im(x5));
      const d3r = sub(re(x3), re(x7));
      const d3i = sub(im(x3), im(x7));
      const e1r = mul(add(d1r, d1i), root);
      const e1i = mul(sub(d1i, d1r), root);
      const e3r = mul(sub(d3i, d3r), root);
      const e3i = mul(add(d3r, d3i), root);
      const u2r = add(e1r, e3r);
      const u2i = sub(e1i, e3i);
      const u3r = add(e1i, e3i);
      const u3i = sub(e3r, e1r);
      const d0r = sub(re(x), re(x4));
      const d0i = sub(im(x), im(x4));
      const d2r = sub(re(x2), re(x6));
      const d2i = sub(im(x2), im(x6));
      const u0r = add(d0r, d2i);
      const u0i = sub(d0i, d2r);
      putTurned(y + step, add(u0r, u2r), add(u0i, u2i), factors);
      putTurned(y + 5 * step, sub(u0r, u2r), sub(u0i, u2i), factors + 64);
      const u1r = sub(d0r, d2i);
      const u1i = add(d0i, d2r);
      putTurned(y + 3 * step, add(u1r, u3r), add(u1i, u3i), factors + 32);
      putTurned(y + 7 * step, sub(u1r, u3r), sub(u1i, u3i), factors + 96);
    }
  }
}

/** Any odd radix by its defining sums; `roots` holds cosine and sine of 2 pi t / radix. */
function radixOdd(radix: i32, blocks: i32, stride: i32, factors: usize, roots: usize, x: usize, y: usize, terms: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  const half = (radix - 1) >> 1;
  for (let p = 0; p < blocks; p++, factors += (radix - 1) << 4, y += <usize>(radix - 1) * step) {
    for (const end = x + step; x < end; x += 32, y += 32) {
      const zr = re(x);
      const zi = im(x);
      let totalR = zr;
      let totalI = zi;
      for (let j = 1, at = terms; j <= half; j++, at += 64) {
        const b = x + <usize>j * part;
        const c = x + <usize>(radix - j) * part;
        const sumR = add(re(b), re(c));
        const sumI = add(im(b), im(c));
        totalR = add(totalR, sumR);
        totalI = add(totalI, sumI);
        v128.store(at, sumR);
        v128.store(at, sumI, 16);
        v128.store(at, sub(re(b), re(c)), 32);
        v128.store(at, sub(im(b), im(c)), 48);
      }
      put(y, totalR, totalI);
      for (let k = 1; k <= half; k++) {
        let mr = zr;
        let mi = zi;
        let nr = f64x2.splat(0);
        let ni = f64x2.splat(0);
        for (let j = 1, t = k, at = terms; j <= half; j++, at += 64) {
          const cos = splat(roots + (t << 4));
          const sin = splat(roots + (t << 4) + 8);
          mr = add(mr, mul(cos, v128.load(at)));
          mi = add(mi, mul(cos, v128.load(at, 16)));
          nr = add(nr, mul(sin, v128.load(at, 32)));
          ni = add(ni, mul(sin, v128.load(at, 48)));
          t += k;
          if (t >= radix) t -= radix;
        }
        const up = factors + ((k - 1) << 4);
        const down = factors + ((radix - k - 1) << 4);
        putTurned(y + <usize>k * step, add(mr, ni), sub(mi, nr), up);
        putTurned(y + <usize>(radix - k) * step, sub(mr, ni), add(mi, nr), down);
      }
    }
  }
}
