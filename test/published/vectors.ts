import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { welchDensity } from '../../src/signal/welch.ts';

interface VectorFile<Case> {
  readonly made: { readonly by: string; readonly python: string; readonly numpy: string; readonly scipy: string };
  readonly cases: readonly Case[];
}

/** The cases of a file made by scripts/reference/makeVectors.py. */
export function vectors<Case>(name: string): readonly Case[] {
  const file = JSON.parse(readFileSync(new URL(`vectors/${name}.json`, import.meta.url), 'utf8')) as VectorFile<Case>;
  assert.ok(file.made.scipy && file.cases.length > 0, `${name} names the scipy it was made with`);
  return file.cases;
}

/** Uniform numbers in [-0.5, 0.5), bit for bit those of makeVectors.py. */
export function noise(seed: number, count: number): Float64Array {
  let state = seed;
  return Float64Array.from({ length: count }, () => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    return state / 2 ** 32 - 0.5;
  });
}

/** Coloured noise about an offset, bit for bit that of makeVectors.py. */
export function record(seed: number, count: number, offset = 1, memory = 0.75): Float64Array {
  let y = 0;
  return noise(seed, count).map((u) => {
    y = memory * y + u;
    return offset + y;
  });
}

/** Largest |a - b| over the largest |b|. */
export function distance(found: ArrayLike<number>, expected: ArrayLike<number>): number {
  assert.equal(found.length, expected.length, 'as many values as expected');
  let worst = 0;
  let largest = 0;
  for (let i = 0; i < expected.length; i++) {
    assert.ok(Number.isFinite(found[i]), `value ${i} is a number`);
    worst = Math.max(worst, Math.abs(found[i] - expected[i]));
    largest = Math.max(largest, Math.abs(expected[i]));
  }
  return largest === 0 ? worst : worst / largest;
}

/** Fails unless the found values lie within `tolerance` of the largest expected one. */
export function near(found: ArrayLike<number>, expected: ArrayLike<number>, tolerance: number, what = ''): void {
  const worst = distance(found, expected);
  assert.ok(worst <= tolerance, `${what} differs by ${worst}, more than ${tolerance}`);
}

/** Fails unless |found - expected| <= tolerance x |expected|. */
export function close(found: number, expected: number, tolerance: number, what = ''): void {
  const error = Math.abs(found - expected);
  assert.ok(
    error <= tolerance * Math.max(Math.abs(expected), Number.MIN_VALUE),
    `${what} is ${found}, expected ${expected}`,
  );
}

/** Equivalent noise bandwidth of a window in bins, as a density states it. */
export function noiseBandwidthBins(shape: Float64Array): number {
  const { noiseBandwidth, step } = welchDensity([noise(1, shape.length)], { shape, rate: 1 });
  return noiseBandwidth / step;
}
