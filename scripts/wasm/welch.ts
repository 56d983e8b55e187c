// Inner loop of Welch's averages in AssemblyScript, for processors with vectors of two doubles. Four real segments
// at a time: two complex transforms side by side in the lanes, each of two segments (see src/signal/welch.ts).
// A point is 32 bytes: the real parts of both lanes, then the imaginary parts. The passes are those of
// src/signal/butterflies.ts. Built by scripts/wasm/build.mjs into src/signal/welchKernel.ts.

@inline function add(a: v128, b: v128): v128 { return f64x2.add(a, b); }
@inline function sub(a: v128, b: v128): v128 { return f64x2.sub(a, b); }
@inline function mul(a: v128, b: v128): v128 { return f64x2.mul(a, b); }
@inline function splat(at: usize): v128 { return v128.load64_splat(at); }

/** The doubles at two addresses as the two lanes. */
@inline function lanes(first: usize, second: usize): v128 { return v128.load64_lane(second, splat(first), 1); }

/** Stores a number turned by a factor. */
@inline function put(at: usize, br: v128, bi: v128, wr: v128, wi: v128): void {
  v128.store(at, sub(mul(br, wr), mul(bi, wi)));
  v128.store(at, add(mul(br, wi), mul(bi, wr)), 16);
}

/**
 * Adds |Z|^2 of `quads` times four segments to `power`, one vector a bin.
 *
 * stages: for each pass the radix, blocks, stride, and the addresses of its factors and its roots, five words each.
 */
export function addQuads(samples: usize, quads: i32, hop: i32, length: i32, shape: usize, stages: usize, count: i32, work: usize, spare: usize, sums: usize, power: usize): void {
  for (let quad = 0; quad < quads; quad++, samples += <usize>hop << 5) {
    windowed(samples, <usize>hop << 3, length, shape, work);
    let x = work;
    let y = spare;
    for (let s = 0; s < count; s++) {
      pass(stages + s * 20, x, y, sums);
      const held = x;
      x = y;
      y = held;
    }
    for (let k = 0; k < length; k++) {
      const re = v128.load(x + (k << 5));
      const im = v128.load(x + (k << 5), 16);
      const at = power + (k << 4);
      v128.store(at, add(v128.load(at), add(mul(re, re), mul(im, im))));
    }
  }
}

/** Segments 0 and 2 as the lanes' real parts, 1 and 3 as their imaginary parts, less their means, times the window. */
function windowed(samples: usize, hop: usize, length: i32, shape: usize, into: usize): void {
  const end = samples + (<usize>length << 3);
  let sumRe = f64x2.splat(0);
  let sumIm = f64x2.splat(0);
  for (let at = samples; at < end; at += 8) {
    sumRe = add(sumRe, lanes(at, at + 2 * hop));
    sumIm = add(sumIm, lanes(at + hop, at + 3 * hop));
  }
  const meanRe = f64x2.div(sumRe, f64x2.splat(length));
  const meanIm = f64x2.div(sumIm, f64x2.splat(length));
  for (let at = samples; at < end; at += 8, shape += 8, into += 32) {
    const w = splat(shape);
    v128.store(into, mul(sub(lanes(at, at + 2 * hop), meanRe), w));
    v128.store(into, mul(sub(lanes(at + hop, at + 3 * hop), meanIm), w), 16);
  }
}

function pass(stage: usize, x: usize, y: usize, sums: usize): void {
  const radix = load<i32>(stage);
  const blocks = load<i32>(stage, 4);
  const stride = load<i32>(stage, 8);
  const factors = <usize>load<i32>(stage, 12);
  if (radix == 4) radix4(blocks, stride, factors, x, y);
  else if (radix == 2) radix2(blocks, stride, factors, x, y);
  else radixOdd(radix, blocks, stride, factors, <usize>load<i32>(stage, 16), x, y, sums);
}

function radix2(blocks: i32, stride: i32, factors: usize, x: usize, y: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  for (let p = 0; p < blocks; p++, factors += 16, y += step) {
    const wr = splat(factors);
    const wi = splat(factors + 8);
    for (const end = x + step; x < end; x += 32, y += 32) {
      const ar = v128.load(x);
      const ai = v128.load(x, 16);
      const br = v128.load(x + part);
      const bi = v128.load(x + part, 16);
      v128.store(y, add(ar, br));
      v128.store(y, add(ai, bi), 16);
      put(y + step, sub(ar, br), sub(ai, bi), wr, wi);
    }
  }
}

function radix4(blocks: i32, stride: i32, factors: usize, x: usize, y: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  for (let p = 0; p < blocks; p++, factors += 48, y += 3 * step) {
    const w1r = splat(factors);
    const w1i = splat(factors + 8);
    const w2r = splat(factors + 16);
    const w2i = splat(factors + 24);
    const w3r = splat(factors + 32);
    const w3i = splat(factors + 40);
    for (const end = x + step; x < end; x += 32, y += 32) {
      const ar = v128.load(x);
      const ai = v128.load(x, 16);
      const cr = v128.load(x + 2 * part);
      const ci = v128.load(x + 2 * part, 16);
      const sumAcR = add(ar, cr);
      const sumAcI = add(ai, ci);
      const difAcR = sub(ar, cr);
      const difAcI = sub(ai, ci);
      const br = v128.load(x + part);
      const bi = v128.load(x + part, 16);
      const dr = v128.load(x + 3 * part);
      const di = v128.load(x + 3 * part, 16);
      const sumBdR = add(br, dr);
      const sumBdI = add(bi, di);
      const difBdR = sub(br, dr);
      const difBdI = sub(bi, di);
      v128.store(y, add(sumAcR, sumBdR));
      v128.store(y, add(sumAcI, sumBdI), 16);
      put(y + step, add(difAcR, difBdI), sub(difAcI, difBdR), w1r, w1i);
      put(y + 2 * step, sub(sumAcR, sumBdR), sub(sumAcI, sumBdI), w2r, w2i);
      put(y + 3 * step, sub(difAcR, difBdI), add(difAcI, difBdR), w3r, w3i);
    }
  }
}

/** Any odd radix by its defining sums; `roots` holds cosine and sine of 2 pi t / radix, `sums` has room for four vectors a pair of terms. */
function radixOdd(radix: i32, blocks: i32, stride: i32, factors: usize, roots: usize, x: usize, y: usize, sums: usize): void {
  const part = <usize>(blocks * stride) << 5;
  const step = <usize>stride << 5;
  const half = (radix - 1) >> 1;
  for (let p = 0; p < blocks; p++, factors += (radix - 1) << 4, y += <usize>(radix - 1) * step) {
    for (const end = x + step; x < end; x += 32, y += 32) {
      const zr = v128.load(x);
      const zi = v128.load(x, 16);
      let totalR = zr;
      let totalI = zi;
      for (let j = 1, at = sums; j <= half; j++, at += 64) {
        const b = x + <usize>j * part;
        const c = x + <usize>(radix - j) * part;
        const sumR = add(v128.load(b), v128.load(c));
        const sumI = add(v128.load(b, 16), v128.load(c, 16));
        totalR = add(totalR, sumR);
        totalI = add(totalI, sumI);
        v128.store(at, sumR);
        v128.store(at, sumI, 16);
        v128.store(at, sub(v128.load(b), v128.load(c)), 32);
        v128.store(at, sub(v128.load(b, 16), v128.load(c, 16)), 48);
      }
      v128.store(y, totalR);
      v128.store(y, totalI, 16);
      for (let k = 1; k <= half; k++) {
        let mr = zr;
        let mi = zi;
        let nr = f64x2.splat(0);
        let ni = f64x2.splat(0);
        for (let j = 1, t = k, at = sums; j <= half; j++, at += 64) {
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
        put(y + <usize>k * step, add(mr, ni), sub(mi, nr), splat(up), splat(up + 8));
        put(y + <usize>(radix - k) * step, sub(mr, ni), add(mi, nr), splat(down), splat(down + 8));
      }
    }
  }
}
