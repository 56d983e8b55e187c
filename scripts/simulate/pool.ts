import { bandMeanSquare } from '../../src/signal/band.ts';
import { WelchSum, welchDensity } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import type { Noise } from './noise.ts';
import { rate, ride, road } from './ride.ts';

/** The band of the question, and a family of nine, in Hz. */
export const primaryBand = [10, 50] as const;
export const familyBands = [5, 8, 12, 16, 21, 28, 37, 50, 70, 100]
  .slice(0, -1)
  .map((low, k) => [low, [8, 12, 16, 21, 28, 37, 50, 70, 100][k]] as const);

/** What is kept of a ride: the levels that the tool would compare. */
export interface RideLevels {
  /** r.m.s. in the primary band. */
  readonly primary: number;
  /** r.m.s. in each band of the family. */
  readonly family: readonly number[];
  /** Mean square in the primary band of each block of 5 s. */
  readonly blocks: readonly number[];
}

/**
 * Rides over one road, each through the tool's own spectrum (Hann, 2 s, half overlapped) and bands. Experiments draw
 * their runs from the pool without putting back, so that A and B come from one population and the true ratio is 1.
 */
export function ridePool(count: number, random: Noise): RideLevels[] {
  const over = road(random);
  return Array.from({ length: count }, () => levelsOf(ride(over, random)));
}

const shape = windowShape('hann', 2 * rate);

function levelsOf(samples: Float64Array): RideLevels {
  const whole = welchDensity([samples], { shape, rate });
  const blocks: number[] = [];
  for (let start = 0; start + 5 * rate <= samples.length; start += 5 * rate) {
    const sum = new WelchSum({ shape, rate });
    sum.addStretch(samples.subarray(start, start + 5 * rate));
    blocks.push(bandMeanSquare(sum.density(), ...primaryBand));
  }
  return {
    primary: Math.sqrt(bandMeanSquare(whole, ...primaryBand)),
    family: familyBands.map(([low, high]) => Math.sqrt(bandMeanSquare(whole, low, high))),
    blocks,
  };
}
