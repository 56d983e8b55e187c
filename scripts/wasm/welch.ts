// Inner loop of Welch's averages in AssemblyScript, for processors with vectors of two doubles. Four real segments
// at a time: two complex transforms side by side in the lanes, each of two segments (see src/signal/welch.ts). The
// transforms are those of src/signal/anyLength.ts. Built by scripts/wasm/build.mjs into src/signal/welchKernel.ts.

import { passes } from './butterflies';
import { add, addSquare, butterfly4, im, lanes, mul, put, putTurned, re, splat, sub, word } from './vectors';

/**
 * Adds |Z|^2 of segments to sums of one vector a point.
 *
 * plan: words as src/signal/welchMemory.ts writes them: length, shape, two places for as many points, sums, place for an
 * odd radix, count of passes, passes, columns to be convolved or 0, their plan.
 */
export function addSegments(plan: usize, samples: usize, segments: i32, hop: i32): void {
  const length = word(plan, 0);
  const shape = <usize>word(plan, 1);
  const work = <usize>word(plan, 2);
  const spare = <usize>word(plan, 3);
  const power = <usize>word(plan, 4);
  const terms = <usize>word(plan, 5);
  const columns = word(plan, 8);
  for (; segments > 0; segments -= 4, samples += <usize>hop << 5) {
    windowed(samples, <usize>hop << 3, length, shape, work);
    if (segments < 4) silence(work, length, segments);
    const x = passes(word(plan, 7), word(plan, 6), work, spare, terms);
    if (columns > 0) convolve(word(plan, 9), x, columns, terms, power);
    else for (let k = 0; k < length; k++) addSquare(power + (k << 4), re(x + (k << 5)), im(x + (k << 5)));
  }
}

/** Takes out what stands where fewer than four segments are left. */
function silence(into: usize, length: i32, segments: i32): void {
  const left = segments > 2 ? i64x2(-1, -1) : i64x2(-1, 0);
  const right = segments > 1 ? i64x2(-1, 0) : i64x2(0, 0);
  for (const end = into + (<usize>length << 5); into < end; into += 32) put(into, v128.and(re(into), left), v128.and(im(into), right));
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
    put(into, mul(sub(lanes(at, at + 2 * hop), meanRe), w), mul(sub(lanes(at + hop, at + 3 * hop), meanIm), w));
  }
}

/**
 * The last step of a transform: transforms of columns as convolutions with a chirp, as `transformColumns` has them, but
 * for the last product, which changes no size. The squares are added to the sums.
 *
 * plan: points, size, chirp, kernel, factors of the first pass, count of the passes between the first and the last, these
 * passes, two places for as many points.
 */
function convolve(plan: usize, x: usize, columns: i32, terms: usize, power: usize): void {
  const points = word(plan, 0);
  const blocks = word(plan, 1) >> 2;
  const factors = <usize>word(plan, 4);
  const one = <usize>word(plan, 7);
  const other = <usize>word(plan, 8);
  for (let column = 0; column < columns; column++, x += 32, power += 16) {
    chirped(x, <usize>columns << 5, points, blocks, word(plan, 2), factors, one);
    const found = passes(word(plan, 6), word(plan, 5), one, other, terms);
    const free = found == one ? other : one;
    multiplied(blocks, word(plan, 3), factors, found, free);
    addColumn(passes(word(plan, 6), word(plan, 5), free, found, terms), points, blocks, <usize>columns << 4, power);
  }
}

/** The first pass by radix 4 of a column times the chirp. More than a quarter of what goes in is no 0, and no more than a half. */
function chirped(x: usize, step: usize, points: i32, blocks: i32, chirp: usize, factors: usize, y: usize): void {
  const both = points - blocks;
  const part = <usize>blocks * step;
  for (let p = 0; p < blocks; p++, x += step, chirp += 16, factors += 48, y += 128) {
    const cr = splat(chirp);
    const ci = splat(chirp + 8);
    const ar = sub(mul(re(x), cr), mul(im(x), ci));
    const ai = add(mul(re(x), ci), mul(im(x), cr));
    if (p < both) {
      const dr = splat(chirp + (blocks << 4));
      const di = splat(chirp + (blocks << 4) + 8);
      const br = sub(mul(re(x + part), dr), mul(im(x + part), di));
      const bi = add(mul(re(x + part), di), mul(im(x + part), dr));
      put(y, add(ar, br), add(ai, bi));
      putTurned(y + 32, add(ar, bi), sub(ai, br), factors);
      putTurned(y + 64, sub(ar, br), sub(ai, bi), factors + 16);
      putTurned(y + 96, sub(ar, bi), add(ai, br), factors + 32);
    } else {
      put(y, ar, ai);
      putTurned(y + 32, ar, ai, factors);
      putTurned(y + 64, ar, ai, factors + 16);
      putTurned(y + 96, ar, ai, factors + 32);
    }
  }
}

/** Stores a number times one of the kernel's, its parts exchanged: the inverse transform is then the forward one. */
@inline function putExchanged(at: usize, br: v128, bi: v128, kernel: usize): void {
  const wr = splat(kernel);
  const wi = splat(kernel + 8);
  put(at, add(mul(br, wi), mul(bi, wr)), sub(mul(br, wr), mul(bi, wi)));
}

/** The last pass by radix 4 of the transform there, the product with the kernel, and the first pass of the transform back. */
function multiplied(blocks: i32, kernel: usize, factors: usize, x: usize, y: usize): void {
  const part = <usize>blocks << 5;
  const next = <usize>blocks << 4;
  for (let p = 0; p < blocks; p++, x += 32, kernel += 16, factors += 48, y += 128) {
    const b = x + part;
    const c = b + part;
    const d = c + part;
    const sumAcR = add(re(x), re(c));
    const sumAcI = add(im(x), im(c));
    const difAcR = sub(re(x), re(c));
    const difAcI = sub(im(x), im(c));
    const sumBdR = add(re(b), re(d));
    const sumBdI = add(im(b), im(d));
    const difBdR = sub(re(b), re(d));
    const difBdI = sub(im(b), im(d));
    putExchanged(x, add(sumAcR, sumBdR), add(sumAcI, sumBdI), kernel);
    putExchanged(b, add(difAcR, difBdI), sub(difAcI, difBdR), kernel + next);
    putExchanged(c, sub(sumAcR, sumBdR), sub(sumAcI, sumBdI), kernel + 2 * next);
    putExchanged(d, sub(difAcR, difBdI), add(difAcI, difBdR), kernel + 3 * next);
    butterfly4(x, part, y, 32, factors);
  }
}

/** The last pass by radix 4 of the transform back, of which the first half is wanted, added to the sums `step` bytes apart. */
function addColumn(x: usize, points: i32, blocks: i32, step: usize, power: usize): void {
  const both = points - blocks;
  const part = <usize>blocks << 5;
  const next = <usize>blocks * step;
  for (let p = 0; p < blocks; p++, x += 32, power += step) {
    const b = x + part;
    const c = b + part;
    const d = c + part;
    addSquare(power, add(add(re(x), re(c)), add(re(b), re(d))), add(add(im(x), im(c)), add(im(b), im(d))));
    if (p < both)
      addSquare(power + next, add(sub(re(x), re(c)), sub(im(b), im(d))), sub(sub(im(x), im(c)), sub(re(b), re(d))));
  }
}
