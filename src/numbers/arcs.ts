/*
 * The algorithms and constants of this file are those of fdlibm's e_asin.c, e_acos.c, s_atan.c and e_atan2.c:
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */
import { headOf, twoTo, upperOf, withUpper } from './bits.ts';

const quarter = { head: Math.PI / 2, tail: 6.12323399573676603587e-17 };
const eighth = Math.PI / 4;

/** (asin(s) - s) / s as a function of z = s^2. */
function arcRatio(z: number): number {
  const above =
    z *
    (1.66666666666666657415e-1 +
      z *
        (-3.25565818622400915405e-1 +
          z *
            (2.01212532134862925881e-1 +
              z * (-4.00555345006794114027e-2 + z * (7.91534994289814532176e-4 + z * 3.4793310759602116757e-5)))));
  const below =
    1 +
    z *
      (-2.40339491173441421878 +
        z * (2.02094576023350569471 + z * (-6.8828397160545329303e-1 + z * 7.70381505559019352791e-2)));
  return above / below;
}

/**
 * The angle in radians, from -pi/2 to pi/2, that has this sine, to less than one unit of the last digit, and the same bits on every
 * machine, as Math.asin does not give them. NaN beyond -1 and 1.
 * Source: fdlibm 5.3, e_asin.c.
 */
export function asinOf(x: number): number {
  const size = Math.abs(x);
  if (!(size <= 1)) return NaN;
  if (size === 1) return x * quarter.head + x * quarter.tail;
  if (size < twoTo(-27)) return x;
  if (size < 0.5) return x + x * arcRatio(x * x);
  const z = (1 - size) * 0.5;
  const ratio = arcRatio(z);
  const root = Math.sqrt(z);
  if (size >= withUpper(0, 0x3fef3333)) {
    const arc = quarter.head - (2 * (root + root * ratio) - quarter.tail);
    return x > 0 ? arc : -arc;
  }
  const head = headOf(root);
  const tail = (z - head * head) / (root + head);
  const small = 2 * root * ratio - (quarter.tail - 2 * tail);
  const arc = eighth - (small - (eighth - 2 * head));
  return x > 0 ? arc : -arc;
}

/** The angle in radians, from 0 to pi, that has this cosine, as `asinOf`. Source: fdlibm 5.3, e_acos.c. */
export function acosOf(x: number): number {
  const size = Math.abs(x);
  if (!(size <= 1)) return NaN;
  if (size === 1) return x > 0 ? 0 : Math.PI;
  if (size < twoTo(-57)) return quarter.head + quarter.tail;
  if (size < 0.5) return quarter.head - (x - (quarter.tail - x * arcRatio(x * x)));
  const z = (1 - size) * 0.5;
  const ratio = arcRatio(z);
  const root = Math.sqrt(z);
  if (x < 0) return Math.PI - 2 * (root + (ratio * root - quarter.tail));
  const head = headOf(root);
  const tail = (z - head * head) / (root + head);
  return 2 * (head + (ratio * root + tail));
}

/** An arc, in two parts, about whose tangent others are developed. */
interface Centre {
  readonly head: number;
  readonly tail: number;
}

/** The arcs whose tangents are 1/2, 1 and 3/2. */
const half: Centre = { head: 4.63647609000806093515e-1, tail: 2.26987774529616870924e-17 };
const one: Centre = { head: eighth, tail: 3.06161699786838301793e-17 };
const oneAndHalf: Centre = { head: 9.82793723247329054082e-1, tail: 1.39033110312309984516e-17 };

/** From here on the arc is a quarter turn to the last digit; below the other it is its tangent. */
const farthest = twoTo(66);
const nearest = twoTo(-27);

/** The arc tangent of a number from 0 on. */
function atanOf(size: number): number {
  if (size >= farthest) return quarter.head + quarter.tail;
  if (size < nearest) return size;
  if (size < 0.4375) return size - size * atanRatio(size);
  if (size < 0.6875) return beyond(half, (2 * size - 1) / (2 + size));
  if (size < 1.1875) return beyond(one, (size - 1) / (size + 1));
  if (size < 2.4375) return beyond(oneAndHalf, (size - 1.5) / (1 + 1.5 * size));
  return beyond(quarter, -1 / size);
}

/** The arc of a centre and of a tangent beyond it. */
const beyond = ({ head, tail }: Centre, x: number): number => head - (x * atanRatio(x) - tail - x);

function atanRatio(x: number): number {
  const z = x * x;
  const w = z * z;
  const odd =
    z *
    (3.33333333333329318027e-1 +
      w *
        (1.42857142725034663711e-1 +
          w *
            (9.09088713343650656196e-2 +
              w * (6.66107313738753120669e-2 + w * (4.97687799461593236017e-2 + w * 1.62858201153657823623e-2)))));
  const even =
    w *
    (-1.99999999998764832476e-1 +
      w *
        (-1.1111110405462355788e-1 +
          w * (-7.69187620504482999495e-2 + w * (-5.83357013379057348645e-2 + w * -3.6531572744216915527e-2))));
  return odd + even;
}

/** pi - `Math.PI`. */
const piTail = 1.2246467991473531772e-16;

/**
 * The angle in radians, from -pi to pi, of the point that lies x along the first axis and y along the second, as `asinOf`.
 * Source: fdlibm 5.3, e_atan2.c.
 */
export function atan2Of(y: number, x: number): number {
  if (Number.isNaN(x) || Number.isNaN(y)) return NaN;
  const isLeft = x < 0 || Object.is(x, -0);
  const sign = y < 0 || Object.is(y, -0) ? -1 : 1;
  if (y === 0) return isLeft ? sign * Math.PI : y;
  if (x === 0) return sign * quarter.head;
  if (!Number.isFinite(x) || !Number.isFinite(y))
    return sign * atInfinity(!Number.isFinite(y), !Number.isFinite(x), isLeft);
  // Powers of two between the two, by their upper bits.
  const apart = (upperOf(Math.abs(y)) - upperOf(Math.abs(x))) >> 20;
  if (apart > 60) return sign * quarter.head;
  const arc = isLeft && apart < -60 ? 0 : atanOf(Math.abs(y / x));
  if (!isLeft) return sign * arc;
  return sign * (Math.PI - (arc - piTail));
}

function atInfinity(ofY: boolean, ofX: boolean, isLeft: boolean): number {
  if (!ofY) return isLeft ? Math.PI : 0;
  return !ofX ? quarter.head : isLeft ? 3 * eighth : eighth;
}
