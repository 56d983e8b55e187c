/*
 * The algorithms and constants of this file are those of fdlibm's k_sin.c, k_cos.c and k_tan.c:
 * Copyright (C) 1993, 2004 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */
import { headOf, twoTo, upperOf, withUpper } from './bits.ts';
import { inFirstQuarter, quarterOf, type Reduced } from './quarters.ts';

/** Below this the series ends with its first term. */
const linear = twoTo(-27);

/**
 * The sine of an angle in radians, to less than one unit of the last digit, and the same bits on every machine, as Math.sin does not
 * give them. NaN for what is not finite.
 * Source: fdlibm 5.3, s_sin.c: a polynomial, of the angle less the nearest multiple of a quarter turn.
 */
export function sinOf(x: number): number {
  if (inFirstQuarter(x)) return sinSeries(x);
  if (!Number.isFinite(x)) return NaN;
  const reduced = quarterOf(x);
  switch (reduced.quarter & 3) {
    case 0:
      return sinOfSum(reduced);
    case 1:
      return cosSeries(reduced.head, reduced.tail);
    case 2:
      return -sinOfSum(reduced);
    default:
      return -cosSeries(reduced.head, reduced.tail);
  }
}

/** The cosine of an angle in radians, as `sinOf`. Source: fdlibm 5.3, s_cos.c. */
export function cosOf(x: number): number {
  if (inFirstQuarter(x)) return cosSeries(x, 0);
  if (!Number.isFinite(x)) return NaN;
  const reduced = quarterOf(x);
  switch (reduced.quarter & 3) {
    case 0:
      return cosSeries(reduced.head, reduced.tail);
    case 1:
      return -sinOfSum(reduced);
    case 2:
      return -cosSeries(reduced.head, reduced.tail);
    default:
      return sinOfSum(reduced);
  }
}

/** The tangent of an angle in radians, as `sinOf`. Source: fdlibm 5.3, s_tan.c. */
export function tanOf(x: number): number {
  if (inFirstQuarter(x)) return tanSeries(x, 0, false);
  if (!Number.isFinite(x)) return NaN;
  const { quarter, head, tail } = quarterOf(x);
  return tanSeries(head, tail, (quarter & 1) === 1);
}

const sinFrom2 = (z: number): number =>
  8.33333333332248946124e-3 +
  z *
    (-1.98412698298579493134e-4 +
      z * (2.75573137070700676789e-6 + z * (-2.50507602534068634195e-8 + z * 1.58969099521155010221e-10)));
const sinThird = -1.66666666666666324348e-1;

function sinSeries(x: number): number {
  if (Math.abs(x) < linear) return x;
  const z = x * x;
  return x + z * x * (sinThird + z * sinFrom2(z));
}

function sinOfSum({ head, tail }: Reduced): number {
  if (Math.abs(head) < linear) return head;
  const z = head * head;
  const v = z * head;
  return head - (z * (0.5 * tail - v * sinFrom2(z)) - tail - v * sinThird);
}

/** From these on 1 - x^2/2 is taken in two steps: as they are told apart by their upper bits. */
const twoStepsFrom = withUpper(0, 0x3fd33333);
const lastStepFrom = withUpper(0, 0x3fe90001);

function cosSeries(x: number, tail: number): number {
  const size = Math.abs(x);
  if (size < linear) return 1;
  const z = x * x;
  const series =
    z *
    (4.16666666666666019037e-2 +
      z *
        (-1.38888888888741095749e-3 +
          z *
            (2.48015872894767294178e-5 +
              z * (-2.75573143513906633035e-7 + z * (2.0875723212981748279e-9 + z * -1.13596475577881948265e-11)))));
  const rest = z * series - x * tail;
  if (size < twoStepsFrom) return 1 - (0.5 * z - rest);
  const step = size >= lastStepFrom ? 0.28125 : withUpper(0, upperOf(size) - 0x200000);
  return 1 - step - (0.5 * z - step - rest);
}

/** Below this the tangent is its angle. */
const linearTan = twoTo(-28);
/** From here on the tangent is developed about an eighth of a turn. */
const farFrom = withUpper(0, 0x3fe59428);
const eighth = { head: 7.85398163397448278999e-1, tail: 3.06161699786838301793e-17 };

/** The tangent of x and its tail, or -1 through it. */
function tanSeries(x: number, tail: number, isInverse: boolean): number {
  if (Math.abs(x) < linearTan) return isInverse ? minusInverse(x + tail, x, tail) : x;
  const isFar = Math.abs(x) >= farFrom;
  const sign = x < 0 ? -1 : 1;
  const near = isFar ? eighth.head - sign * x + (eighth.tail - sign * tail) : x;
  const rest = tanRest(near, isFar ? 0 : tail);
  const sum = near + rest;
  if (isFar) {
    const v = isInverse ? -1 : 1;
    return sign * (v - 2 * (near - ((sum * sum) / (sum + v) - rest)));
  }
  return isInverse ? minusInverse(sum, near, rest) : sum;
}

/** tan(x + tail) - x for an x below 0.6744. */
function tanRest(x: number, tail: number): number {
  const z = x * x;
  const w = z * z;
  const odd =
    1.33333333333201242699e-1 +
    w *
      (2.18694882948595424599e-2 +
        w *
          (3.59207910759131235356e-3 +
            w * (5.88041240820264096874e-4 + w * (7.817944429395570923e-5 + w * -1.85586374855275456654e-5))));
  const even =
    z *
    (5.39682539762260521377e-2 +
      w *
        (8.86323982359930005737e-3 +
          w *
            (1.45620945432529025516e-3 +
              w * (2.46463134818469906812e-4 + w * (7.14072491382608190305e-5 + w * 2.59073051863633712884e-5)))));
  const cube = z * x;
  return tail + z * (cube * (odd + even) + tail) + 3.33333333333334091986e-1 * cube;
}

/** -1 / (x + rest), of which `sum` is the rounded sum, without losing a digit. */
function minusInverse(sum: number, x: number, rest: number): number {
  const head = headOf(sum);
  const tail = rest - (head - x);
  const inverse = -1 / sum;
  const inverseHead = headOf(inverse);
  return inverseHead + inverse * (1 + inverseHead * head + inverseHead * tail);
}
