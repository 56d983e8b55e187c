/*
 * The algorithms and constants of this file are those of fdlibm's e_log.c, s_log1p.c and e_log10.c, and of e_log2.c, which FreeBSD made of the first:
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */
import { headOf, upperOf, withUpper } from './bits.ts';

/** dB of an amplitude a neper: 20 log10 e. */
export const decibelsPerNeper = 20 / Math.LN10;

const ln2 = { head: 6.9314718036912381649e-1, tail: 1.90821492927058770002e-10 };

/** A number as 2^k (1 + f), with 1 + f from the root of 1/2 to that of 2, and the bits that the mantissa began with. */
interface Parts {
  readonly k: number;
  readonly f: number;
  readonly bits: number;
}

/** Below 2^-1022 a number has fewer digits, and is taken 2^54 times as large. */
const leastNormal = 2.2250738585072014e-308;
const enlarged = 18014398509481984;

/** The number itself where it has no finite logarithm, or that there is none. */
const notFinite = (x: number): number | undefined =>
  x === 0 ? -Infinity : x < 0 || Number.isNaN(x) ? NaN : x === Infinity ? Infinity : undefined;

/** The parts of a finite number above 0. */
function partsOf(x: number): Parts {
  const isTiny = x < leastNormal;
  const normal = isTiny ? x * enlarged : x;
  const upper = upperOf(normal);
  const bits = upper & 0xfffff;
  const above = (bits + 0x95f64) & 0x100000;
  const k = (upper >> 20) - 1023 - (isTiny ? 54 : 0) + (above >> 20);
  return { k, f: withUpper(normal, bits | (above ^ 0x3ff00000)) - 1, bits };
}

/** ln(1 + f) = f - s (f - R) with s = f / (2 + f): R of s^2, for log and log2, which sum its terms in two halves. */
function seriesOf(z: number): number {
  const w = z * z;
  const even = w * (3.999999999940941908e-1 + w * (2.222219843214978396e-1 + w * 1.531383769920937332e-1));
  const odd =
    z *
    (6.66666666666673513e-1 +
      w * (2.857142874366239149e-1 + w * (1.818357216161805012e-1 + w * 1.479819860511658591e-1)));
  return odd + even;
}

/**
 * The natural logarithm, to less than one unit of the last digit, and the same bits on every machine, as Math.log does not give them.
 * NaN below 0.
 * Source: fdlibm 5.3, e_log.c.
 */
export function logOf(x: number): number {
  const none = notFinite(x);
  if (none !== undefined) return none;
  const { k, f, bits } = partsOf(x);
  if ((0xfffff & (2 + bits)) < 3) return logNearPower(k, f);
  const s = f / (2 + f);
  const series = seriesOf(s * s);
  if (((bits - 0x6147a) | (0x6b851 - bits)) > 0) {
    const half = 0.5 * f * f;
    if (k === 0) return f - (half - s * (half + series));
    return k * ln2.head - (half - (s * (half + series) + k * ln2.tail) - f);
  }
  if (k === 0) return f - s * (f - series);
  return k * ln2.head - (s * (f - series) - k * ln2.tail - f);
}

/** ln(2^k (1 + f)) for an f below 2^-20. */
function logNearPower(k: number, f: number): number {
  if (f === 0) return k === 0 ? 0 : k * ln2.head + k * ln2.tail;
  const rest = f * f * (0.5 - 0.33333333333333333 * f);
  return k === 0 ? f - rest : k * ln2.head - (rest - k * ln2.tail - f);
}

/** Below 2^-29 ln(1 + x) is x - x^2/2, below 2^-54 it is x; from 2^53 on 1 is lost in x. As figures, which a bundle without them leaves out. */
const linearAndSquare = 1.862645149230957e-9;
const linear = 5.551115123125783e-17;
const withoutOne = 9007199254740992;

/** 1 + x below the root of 2, from the root of 1/2, and above 2^53: as they are told apart by their upper bits, 0x3fda827a and 0xbfd2bec5. */
const rootAbove = 0.4142136573791504;
const rootBelow = -0.292893648147583;

/**
 * The natural logarithm of 1 + x, also where x is small, to less than one unit of the last digit, and the same bits on every machine.
 * NaN below -1.
 * Source: fdlibm 5.3, s_log1p.c.
 */
export function log1pOf(x: number): number {
  const none = notFinite(1 + x);
  if (none !== undefined) return none;
  const size = Math.abs(x);
  if (size < linearAndSquare) return size < linear ? x : x - x * x * 0.5;
  if (x > rootBelow && x < rootAbove) {
    const half = 0.5 * x * x;
    return x - (half - shareOf(x, half));
  }
  const u = size < withoutOne ? 1 + x : x;
  const upper = upperOf(u);
  const whole = (upper >> 20) - 1023;
  // What was lost when 1 was added.
  const lost = size < withoutOne ? (whole > 0 ? 1 - (u - x) : x - (u - 1)) / u : 0;
  const bits = upper & 0xfffff;
  const isHigh = bits >= 0x6a09e;
  const k = whole + (isHigh ? 1 : 0);
  const f = withUpper(u, bits | (isHigh ? 0x3fe00000 : 0x3ff00000)) - 1;
  const half = 0.5 * f * f;
  if ((isHigh ? (0x100000 - bits) >> 2 : bits) === 0) {
    if (f === 0) return k * ln2.head + (lost + k * ln2.tail);
    const rest = half * (1 - 0.66666666666666666 * f);
    return k * ln2.head - (rest - (k * ln2.tail + lost) - f);
  }
  return k * ln2.head - (half - (shareOf(f, half) + (k * ln2.tail + lost)) - f);
}

/** s (f^2/2 + R) of log1p, which sums the terms of R in one row. */
function shareOf(f: number, half: number): number {
  const s = f / (2 + f);
  const z = s * s;
  const series =
    z *
    (6.66666666666673513e-1 +
      z *
        (3.999999999940941908e-1 +
          z *
            (2.857142874366239149e-1 +
              z *
                (2.222219843214978396e-1 +
                  z * (1.818357216161805012e-1 + z * (1.531383769920937332e-1 + z * 1.479819860511658591e-1))))));
  return s * (half + series);
}

/**
 * The logarithm to base 2, whole for whole powers of it, and the same bits on every machine. NaN below 0.
 * Source: FreeBSD, e_log2.c: the natural logarithm in two parts, times 1 / ln 2 in two parts.
 */
export function log2Of(x: number): number {
  const none = notFinite(x);
  if (none !== undefined) return none;
  const { k, f } = partsOf(x);
  const half = 0.5 * f * f;
  const s = f / (2 + f);
  const head = headOf(f - half);
  const tail = f - head - half + s * (half + seriesOf(s * s));
  const [perHead, perTail] = [1.44269504072144627571, 1.67517131648865118353e-10];
  const main = head * perHead;
  const rest = (tail + head) * perTail + tail * perHead;
  const sum = k + main;
  return rest + (k - sum + main) + sum;
}

/**
 * The logarithm to base 10, whole for whole powers of it, and the same bits on every machine. NaN below 0.
 * Source: fdlibm 5.3, e_log10.c.
 */
export function log10Of(x: number): number {
  const none = notFinite(x);
  if (none !== undefined) return none;
  if (x === 1) return 0;
  const isTiny = x < leastNormal;
  const normal = isTiny ? x * enlarged : x;
  const upper = upperOf(normal);
  const whole = (upper >> 20) - 1023 - (isTiny ? 54 : 0);
  const below = whole < 0 ? 1 : 0;
  const mantissa = withUpper(normal, (upper & 0xfffff) | ((1023 - below) << 20));
  const y = whole + below;
  const rest = y * 3.69423907715893078616e-13 + 4.34294481903251816668e-1 * logOf(mantissa);
  return rest + y * 3.01029995663611771306e-1;
}
