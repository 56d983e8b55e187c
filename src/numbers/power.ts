/*
 * The algorithm of `powerOf` and its constants are those of fdlibm's e_pow.c:
 * Copyright (C) 2004 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */

import { headOf, twoTo, upperOf, withUpper } from './bits.ts';

/** Below 2^-1022 a number has fewer digits, and is taken 2^53 times as large. */
const leastNormal = 2.2250738585072014e-308;
const enlarged = 9007199254740992;

/** A number as the sum of two, of which the first has its lower bits free. */
interface Split {
  readonly head: number;
  readonly tail: number;
}

/**
 * `base` to the power of `exponent`, to less than 0.7 units of the last digit, and the same bits on every machine: the operator
 * `**` of JavaScript differs in the last digit from one engine to the next. Whole powers that a number holds exactly are
 * exact. What has no real value is NaN, as with the operator.
 * Source: fdlibm 5.3, e_pow.c: log2 of the base in two parts, times the exponent, and 2^x of that.
 */
export function powerOf(base: number, exponent: number): number {
  if (exponent === 1) return base;
  // What is exact by definition, in every engine alike.
  if (base === 0 || exponent === 0 || Math.abs(base) === 1 || !Number.isFinite(base) || !Number.isFinite(exponent))
    // eslint-disable-next-line no-restricted-syntax
    return base ** exponent;
  if (base < 0 && !Number.isInteger(exponent)) return NaN;
  const sign = base < 0 && Math.abs(exponent % 2) === 1 ? -1 : 1;
  const size = Math.abs(base);
  if (Math.abs(exponent) > 2 ** 64) return size > 1 === exponent > 0 ? sign * Infinity : sign * 0;
  return sign * twoToSum(product(exponent, log2Of(size)));
}

/** 10^n for a whole number n: the number nearest to it, as it would be read from a text. */
export const tenTo = (n: number): number => Number(`1e${n}`);

function product(exponent: number, { head, tail }: Split): Split {
  const upper = headOf(exponent);
  return { head: upper * head, tail: (exponent - upper) * head + exponent * tail };
}

/** Steps from which the logarithm is developed, 1 and 1.5, and log2 of them. */
const steps = [
  { at: 1, log: { head: 0, tail: 0 } },
  { at: 1.5, log: { head: 5.84962487220764160156e-1, tail: 1.35003920212974897128e-8 } },
] as const;

/** 2 / (3 ln 2) in two parts, and whole. */
const toLog2 = { head: 9.61796700954437255859e-1, tail: -7.02846165095275826516e-9, whole: 9.61796693925975554329e-1 };

/** log2 of a number above 0. */
function log2Of(size: number): Split {
  const isTiny = size < leastNormal;
  const normal = isTiny ? size * enlarged : size;
  const upper = upperOf(normal);
  const mantissa = upper & 0xfffff;
  // From sqrt(3/4) to sqrt(3/2) it is developed around 1, from there to sqrt(3) around 3/2.
  const place = mantissa <= 0x3988e ? 0 : mantissa < 0xbb67a ? 1 : 2;
  const whole = (upper >> 20) - 1023 - (isTiny ? 53 : 0) + (place === 2 ? 1 : 0);
  const bits = (mantissa | 0x3ff00000) - (place === 2 ? 0x100000 : 0);
  const k = place === 1 ? 1 : 0;
  const { at, log } = steps[k];
  const { head, tail } = ratioLog(withUpper(normal, bits), at, bits, k);
  const product = toLog2.head * head;
  const rest = toLog2.tail * head + tail * toLog2.whole + log.tail;
  const sum = headOf(product + rest + log.head + whole);
  return { head: sum, tail: rest - (sum - whole - log.head - product) };
}

/** 3/2 ln(x / at), in two parts, for an x near to the step `at`. */
function ratioLog(x: number, at: number, bits: number, k: number): Split {
  const above = x - at;
  const inverse = 1 / (x + at);
  const s = above * inverse;
  const sHead = headOf(s);
  const sumHead = withUpper(0, ((bits >> 1) | 0x20000000) + 0x80000 + (k << 18));
  const sumTail = x - (sumHead - at);
  const sTail = inverse * (above - sHead * sumHead - sHead * sumTail);
  const s2 = s * s;
  const series =
    5.99999999999994648725e-1 +
    s2 *
      (4.28571428578550184252e-1 +
        s2 *
          (3.33333329818377432918e-1 +
            s2 * (2.72728123808534006489e-1 + s2 * (2.30660745775561754067e-1 + s2 * 2.06975017800338417784e-1))));
  const rest = s2 * s2 * series + sTail * (sHead + s);
  const square = sHead * sHead;
  const factorHead = headOf(3 + square + rest);
  const factorTail = rest - (factorHead - 3 - square);
  const main = sHead * factorHead;
  const small = sTail * factorHead + factorTail * s;
  const head = headOf(main + small);
  return { head, tail: small - (head - main) };
}

const ln2 = { head: 6.93147182464599609375e-1, tail: -1.90465429995776804525e-9, whole: 6.93147180559945286227e-1 };

/** log2 of half a unit of the last digit of the largest number, above 1024. */
const overflow = 8.0085662595372944372e-17;

/** 2 to the power of a sum of two. */
function twoToSum({ head, tail }: Split): number {
  const sum = tail + head;
  if (sum > 1024 || (sum === 1024 && tail + overflow > sum - head)) return Infinity;
  if (sum < -1075 || (sum === -1075 && tail <= sum - head)) return 0;
  const whole = Math.abs(sum) > 0.5 ? Math.sign(sum) * Math.floor(Math.abs(sum) + 0.5) : 0;
  const left = head - whole;
  const upper = headOf(tail + left);
  const main = upper * ln2.head;
  const small = (tail - (upper - left)) * ln2.whole + upper * ln2.tail;
  const z = main + small;
  const lost = small - (z - main);
  const z2 = z * z;
  const series =
    z -
    z2 *
      (1.66666666666666019037e-1 +
        z2 *
          (-2.77777777770155933842e-3 +
            z2 * (6.61375632143793436117e-5 + z2 * (-1.6533902205465251539e-6 + z2 * 4.13813679705723846039e-8))));
  const rest = (z * series) / (series - 2) - (lost + z * lost);
  return scaled(1 - (rest - z), whole);
}

/** value 2^n, rounded once; the value lies between 0.7 and 1.5. */
function scaled(value: number, n: number): number {
  if (n > 1023) return value * twoTo(n - 1) * 2;
  if (n < -1021) return value * twoTo(n + 54) * twoTo(-54);
  return value * twoTo(n);
}
