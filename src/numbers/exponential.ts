/*
 * The algorithms of `expOf` and `expm1Of` and their constants are those of fdlibm's e_exp.c and s_expm1.c:
 * Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */
import { twoTo, withUpper } from './bits.ts';

const ln2 = { head: 6.9314718036912381649e-1, tail: 1.90821492927058770002e-10 };
const perLn2 = 1.442695040888963387;

/** From here the exponential is infinite, and below it 0. */
const largest = 709.782712893383973096;
const smallest = -745.13321910194110842;

/** Above half of ln 2, and from one and a half of it, the argument is reduced: as they are told apart by their upper bits. */
const reducedFrom = withUpper(0, 0x3fd62e43);
const reducedFarFrom = withUpper(0, 0x3ff0a2b2);
/** From here down expm1 is less than half a unit above -1. */
const minusOneBelow = -withUpper(0, 0x4043687a);
/** Below these the series ends with its first term. */
const linearExp = twoTo(-28);
const linearExpm1 = twoTo(-54);

/** How often ln 2 goes into a number that lies farther from 0 than half of it. */
const timesLn2 = (x: number): number =>
  Math.abs(x) < reducedFarFrom ? Math.sign(x) : Math.trunc(perLn2 * x + (x < 0 ? -0.5 : 0.5));

/**
 * e to the power of x, to less than one unit of the last digit, and the same bits on every machine, as Math.exp does not give them.
 * Source: fdlibm 5.3, e_exp.c: x less a multiple of ln 2, a rational function of that, and a power of two.
 */
export function expOf(x: number): number {
  if (Number.isNaN(x)) return NaN;
  if (x > largest) return Infinity;
  if (x < smallest) return 0;
  // The series misses its last digit here.
  if (x === 1) return Math.E;
  const size = Math.abs(x);
  if (size < linearExp) return 1 + x;
  if (size < reducedFrom) {
    const c = remainderOf(x);
    return 1 - ((x * c) / (c - 2) - x);
  }
  const k = timesLn2(x);
  const head = x - k * ln2.head;
  const tail = k * ln2.tail;
  const r = head - tail;
  const c = remainderOf(r);
  const y = 1 - (tail - (r * c) / (2 - c) - head);
  if (k === 1024) return y * 2 * twoTo(1023);
  return k >= -1021 ? y * twoTo(k) : y * twoTo(k + 1000) * twoTo(-1000);
}

/** r less what the rational function of r takes: r - r^2 P(r^2). */
function remainderOf(r: number): number {
  const t = r * r;
  return (
    r -
    t *
      (1.66666666666666019037e-1 +
        t *
          (-2.77777777770155933842e-3 +
            t * (6.61375632143793436117e-5 + t * (-1.6533902205465251539e-6 + t * 4.13813679705723846039e-8))))
  );
}

/**
 * e to the power of x, less 1, also where x is small, to less than one unit of the last digit, and the same bits on every machine.
 * Source: fdlibm 5.3, s_expm1.c.
 */
export function expm1Of(x: number): number {
  if (Number.isNaN(x) || x > largest) return x + Infinity;
  if (x <= minusOneBelow) return -1;
  const size = Math.abs(x);
  if (size < linearExpm1) return x;
  if (size < reducedFrom) return x - correctionOf(x, 0);
  const k = timesLn2(x);
  const head = x - k * ln2.head;
  const tail = k * ln2.tail;
  const r = head - tail;
  const e = correctionOf(r, head - r - tail);
  return raised(r, e, k);
}

/** What r exceeds expm1(r + c) by, for an r below half of ln 2 and a c that is the error of r. */
function correctionOf(r: number, c: number): number {
  const half = 0.5 * r;
  const square = r * half;
  const series =
    1 +
    square *
      (-3.33333333333331316428e-2 +
        square *
          (1.58730158725481460165e-3 +
            square *
              (-7.93650757867487942473e-5 +
                square * (4.00821782732936239552e-6 + square * -2.01099218183624371326e-7))));
  const t = 3 - series * half;
  const e = square * ((series - t) / (6 - r * t));
  return c === 0 ? r * e - square : r * (e - c) - c - square;
}

/** 2^k (1 + r - e) - 1, in the order that loses least. */
function raised(r: number, e: number, k: number): number {
  if (k === -1) return 0.5 * (r - e) - 0.5;
  if (k === 1) return r < -0.25 ? -2 * (e - (r + 0.5)) : 1 + 2 * (r - e);
  if (k <= -2 || k > 56) {
    const y = 1 - (e - r);
    return (k === 1024 ? y * 2 * twoTo(1023) : y * twoTo(k)) - 1;
  }
  if (k < 20) return (1 - twoTo(-k) - (e - r)) * twoTo(k);
  return (r - (e + twoTo(-k)) + 1) * twoTo(k);
}
