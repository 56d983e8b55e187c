import type { Complex } from './design.ts';

/** Filters a signal by a response given as a function of frequency, exactly and round a circle of 2^k samples. */
export function filtered(signal: Float64Array, rate: number, response: (f: number) => Complex): Float64Array {
  const size = 2 ** Math.ceil(Math.log2(signal.length));
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  re.set(signal);
  transform(re, im, -1);
  for (let k = 0; k <= size / 2; k++) {
    const h = response((k * rate) / size);
    multiply(re, im, k, h.re, h.im);
    if (k > 0 && k < size / 2) multiply(re, im, size - k, h.re, -h.im);
  }
  im[0] = im[size / 2] = 0;
  transform(re, im, 1);
  return re.subarray(0, signal.length).map((value) => value / size);
}

function multiply(re: Float64Array, im: Float64Array, k: number, hr: number, hi: number): void {
  const real = re[k] * hr - im[k] * hi;
  im[k] = re[k] * hi + im[k] * hr;
  re[k] = real;
}

/** The radix-2 fast Fourier transform in place, not scaled (Cooley and Tukey 1965). */
function transform(re: Float64Array, im: Float64Array, sign: 1 | -1): void {
  const size = re.length;
  for (let i = 1, j = 0; i < size; i++) {
    let bit = size >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j], re[i]];
      [im[i], im[j]] = [im[j], im[i]];
    }
  }
  for (let half = 1; half < size; half *= 2) {
    for (let k = 0; k < half; k++) {
      const c = Math.cos((Math.PI * k) / half);
      const s = sign * Math.sin((Math.PI * k) / half);
      for (let a = k; a < size; a += 2 * half) {
        const b = a + half;
        const tr = re[b] * c - im[b] * s;
        const ti = re[b] * s + im[b] * c;
        re[b] = re[a] - tr;
        im[b] = im[a] - ti;
        re[a] += tr;
        im[a] += ti;
      }
    }
  }
}
