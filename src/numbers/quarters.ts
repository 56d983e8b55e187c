/*
 * The algorithm of `quarterOf` for angles below 2^20 quarter turns and its constants are those of fdlibm's e_rem_pio2.c:
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */
import { twoTo, upperOf, withUpper } from './bits.ts';

/** An angle less whole quarter turns, as a sum of two numbers. */
export interface Reduced {
  /** How many quarter turns were taken, and more of whole turns where the angle is large. */
  readonly quarter: number;
  readonly head: number;
  readonly tail: number;
}

/** Up to here, an eighth of a turn by its upper bits, nothing is taken. */
const eighth = withUpper(0, 0x3fe921fc);

/** Whether an angle lies within an eighth of a turn from 0. */
export const inFirstQuarter = (x: number): boolean => Math.abs(x) < eighth;

/** A quarter turn in pieces of 33 bits, so that their products with a whole number are exact, each with all that follows it. */
const pieces = [
  { piece: 1.57079632673412561417, rest: 6.07710050650619224932e-11 },
  { piece: 6.0771005063039659766e-11, rest: 2.02226624879595063154e-21 },
  { piece: 2.0222662487111664558e-21, rest: 8.47842766036889956997e-32 },
] as const;

const threeEighths = withUpper(0, 0x4002d97c);
const medium = withUpper(0, 0x413921fc);

/** The angle x, which lies outside of the first eighth and is finite, less the nearest whole number of quarter turns. */
export function quarterOf(x: number): Reduced {
  const size = Math.abs(x);
  const { quarter, head, tail } = size < threeEighths ? lessOne(size) : size < medium ? lessSome(size) : lessMany(size);
  return x < 0 ? { quarter: -quarter, head: -head, tail: -tail } : { quarter, head, tail };
}

function lessOne(size: number): Reduced {
  const isClose = upperOf(size) === 0x3ff921fb;
  const first = size - pieces[0].piece;
  const left = isClose ? first - pieces[1].piece : first;
  const rest = pieces[isClose ? 1 : 0].rest;
  const head = left - rest;
  return { quarter: 1, head, tail: left - head - rest };
}

function lessSome(size: number): Reduced {
  const quarter = Math.trunc(size * 6.36619772367581382433e-1 + 0.5);
  let left = size - quarter * pieces[0].piece;
  let rest = quarter * pieces[0].rest;
  let head = left - rest;
  const upper = upperOf(size);
  // The upper bits tell whether so much cancels that more pieces are needed.
  if (quarter >= 32 || upper === upperOf((quarter * Math.PI) / 2)) {
    const lost = (): number => (upper >> 20) - ((upperOf(head) >> 20) & 0x7ff);
    for (const [limit, k] of [
      [16, 1],
      [49, 2],
    ]) {
      if (lost() <= limit) break;
      const before = left;
      const taken = quarter * pieces[k].piece;
      left = before - taken;
      rest = quarter * pieces[k].rest - (before - left - taken);
      head = left - rest;
    }
  }
  return { quarter, head, tail: left - head - rest };
}

/** Bits after the point to which a quarter turn is known: for the largest number, and 130 more for what is left. */
const bits = 1160n;
let quarterTurn: bigint | undefined;

/** Angles above 2^19 turns or so, in whole numbers. */
function lessMany(size: number): Reduced {
  quarterTurn ??= quarterTurnBits();
  const exponent = (upperOf(size) >> 20) - 1075;
  const mantissa = BigInt(size * twoTo(-exponent));
  const angle = mantissa << (bits + BigInt(exponent));
  const quarters = (2n * angle + quarterTurn) / (2n * quarterTurn);
  const left = angle - quarters * quarterTurn;
  const head = fromBits(left);
  return { quarter: Number(quarters & 3n), head, tail: fromBits(left - toBits(head)) };
}

/** Machin's formula: pi = 16 atan(1/5) - 4 atan(1/239). */
function quarterTurnBits(): bigint {
  const spare = 40n;
  const atan = (inverse: bigint): bigint => {
    let power = (1n << (bits + spare)) / inverse;
    let sum = power;
    for (let n = 3n; power !== 0n; n += 2n) {
      power /= -inverse * inverse;
      sum += power / n;
    }
    return sum;
  };
  return (8n * atan(5n) - 2n * atan(239n)) >> spare;
}

/** The number nearest to a whole number of 2^-bits. */
const fromBits = (value: bigint): number => {
  // Number() rounds once; what is left of a quarter turn is far from the least number.
  const shift = BigInt(Math.max(0, value.toString(2).length - 900));
  return Number(value >> shift) * twoTo(-600) * twoTo(-Number(bits) + 600 + Number(shift));
};

const toBits = (value: number): bigint => {
  const exponent = ((upperOf(value) >> 20) & 0x7ff) - 1075;
  return value === 0 ? 0n : BigInt(value * twoTo(-exponent)) << (bits + BigInt(exponent));
};
