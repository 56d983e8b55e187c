import { bandMeanSquare } from '../../src/signal/band.ts';
import { welchDensity } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import type { Noise } from './noise.ts';
import { rate, ride, road } from './ride.ts';

/** The band of the question, in Hz. */
const primaryBand = [10, 50] as const;

/** What is kept of a ride: the levels that the tool would compare. */
export interface RideLevels {
  /** r.m.s. in the primary band. */
  readonly primary: number;
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
  return { primary: Math.sqrt(bandMeanSquare(whole, ...primaryBand)) };
}
