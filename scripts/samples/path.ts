import { jointSpread, pulse, ride, surfaces, type Surface } from './design.ts';
import { random, smoothCurve } from './random.ts';

/** A path as every ride finds it: where its joints lie, how deep each is, and where it is rough. */
export interface Path {
  readonly joints: readonly { readonly at: number; readonly peak: number; readonly width: number }[];
  readonly obstacles: readonly { readonly at: number; readonly peak: number; readonly width: number }[];
  /** Factor on the broadband motion at a distance in m; its mean square is about 1. */
  readonly roughness: (distance: number) => number;
}

const pathSeed: Readonly<Record<Surface, number>> = { brick: 31, tile: 32 };
const layingError: Readonly<Record<Surface, number>> = { brick: 0.003, tile: 0.001 };
const roughnessSpread = 0.13;

export function pathOf(surface: Surface): Path {
  const source = random(pathSeed[surface]);
  const { pitch, joint, jointWidth, bumps } = surfaces[surface];
  const count = Math.floor((ride.length + 2) / pitch);
  const joints = Array.from({ length: count }, (_, k) => ({
    at: (k + 1) * pitch + layingError[surface] * source.gaussian(),
    peak: joint * Math.max(0.1, 1 + jointSpread * source.gaussian()),
    width: jointWidth,
  }));
  const curve = smoothCurve(source, 4, ride.length + 10);
  const roughness = (distance: number): number => Math.exp(roughnessSpread * curve(distance) - roughnessSpread ** 2);
  return { joints, obstacles: bumps, roughness };
}

/**
 * Adds to `base` what a wheel does at each place it rolls over: the pulse is as long as the crossing takes.
 * `distance` is the wheel's, in m at each sample, and never falls; `weight` scales the pulses.
 */
export function rollOver(
  base: Float64Array,
  rate: number,
  distance: Float64Array,
  places: Path['joints'],
  weight: number,
): void {
  let n = 1;
  for (const { at, peak, width } of places) {
    while (n < distance.length && distance[n] < at) n++;
    if (n >= distance.length) return;
    const step = distance[n] - distance[n - 1];
    const pace = (step * rate) / ride.speed;
    if (pace < 0.15) continue;
    const instant = (n - 1 + (at - distance[n - 1]) / step) / rate;
    const lasting = width / pace;
    const first = Math.max(0, Math.ceil((instant - 5 * lasting) * rate));
    const last = Math.min(base.length - 1, Math.floor((instant + 5 * lasting) * rate));
    for (let k = first; k <= last; k++) base[k] += weight * pace * peak * pulse(k / rate - instant, lasting);
  }
}
