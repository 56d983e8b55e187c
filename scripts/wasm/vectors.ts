// Numbers of two lanes in memory, for welch.ts: a point is 32 bytes, the real parts of both lanes, then the imaginary parts.
// Factors, roots and kernels are 16 bytes, the real part and then the imaginary part of one number for both lanes.

@inline export function add(a: v128, b: v128): v128 { return f64x2.add(a, b); }
@inline export function sub(a: v128, b: v128): v128 { return f64x2.sub(a, b); }
@inline export function mul(a: v128, b: v128): v128 { return f64x2.mul(a, b); }
@inline export function splat(at: usize): v128 { return v128.load64_splat(at); }
@inline export function re(at: usize): v128 { return v128.load(at); }
@inline export function im(at: usize): v128 { return v128.load(at, 16); }

/** The doubles at two addresses as the two lanes. */
@inline export function lanes(first: usize, second: usize): v128 { return v128.load64_lane(second, splat(first), 1); }

/** Stores a number. */
@inline export function put(at: usize, real: v128, imaginary: v128): void {
  v128.store(at, real);
  v128.store(at, imaginary, 16);
}

/** Stores a number turned by the factor at an address. */
@inline export function putTurned(at: usize, br: v128, bi: v128, factor: usize): void {
  const wr = splat(factor);
  const wi = splat(factor + 8);
  put(at, sub(mul(br, wr), mul(bi, wi)), add(mul(br, wi), mul(bi, wr)));
}

/** Adds the square of a number's size to the sum at an address. */
@inline export function addSquare(at: usize, real: v128, imaginary: v128): void {
  v128.store(at, add(v128.load(at), add(mul(real, real), mul(imaginary, imaginary))));
}

/** One of the whole numbers of 4 bytes at an address. */
@inline export function word(plan: usize, index: usize): i32 { return load<i32>(plan + (index << 2)); }

/** A butterfly of radix 4 of numbers `part` bytes apart, to numbers `step` bytes apart. */
@inline export function butterfly4(x: usize, part: usize, y: usize, step: usize, factors: usize): void {
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
  put(y, add(sumAcR, sumBdR), add(sumAcI, sumBdI));
  putTurned(y + step, add(difAcR, difBdI), sub(difAcI, difBdR), factors);
  putTurned(y + 2 * step, sub(sumAcR, sumBdR), sub(sumAcI, sumBdI), factors + 16);
  putTurned(y + 3 * step, sub(difAcR, difBdI), add(difAcI, difBdR), factors + 32);
}
