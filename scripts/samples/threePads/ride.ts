import { broadbandShape, castorWeight, jointSpread, pulse } from '../design.ts';
import { filtered } from '../fourier.ts';
import { random, smoothCurve } from '../random.ts';
import { logger, parts, response, ride, surfaceDesigns, type RideDesign, type Surface } from './design.ts';

/** A ride as the logger wrote it: vertical acceleration in g in its own steps, gravity in it. */
export interface Ride {
  readonly z: Float64Array;
  /** Mean speed at the pace in m/s. */
  readonly speed: number;
}

const pathSeed: Readonly<Record<Surface, number>> = { brick: 51, tile: 52 };

/** Standing, setting off, riding at a pace of its own, stopping, standing. */
export function rideOf(run: RideDesign): Ride {
  const source = random(run.seed * 1000 + 1);
  const speed = ride.speed * (1 + ride.speedScatter * source.gaussian());
  const level = Math.exp(ride.scatter * source.gaussian() + ride.drift * (run.order - 6.5));
  const pace = pacesOf(run, speed);
  const base = broadband(run, pace, level * (speed / ride.speed) ** ride.exponent);
  addJoints(base, run, pace, level);
  const moved = filtered(base, logger.rate, (f) => response(run.surface, run.condition, f));
  return { z: logged(moved, run.seed), speed };
}

/** Speed in m/s at each sample. */
function pacesOf(run: RideDesign, speed: number): Float64Array {
  const { before, up, pace, down, after } = parts;
  const wander = smoothCurve(random(run.seed * 1000 + 2), 4, 60);
  return Float64Array.from({ length: Math.round((before + up + pace + down + after) * logger.rate) }, (_, n) => {
    const t = n / logger.rate;
    return speed * (1 + 0.01 * wander(t)) * swell((t - before) / up) * (1 - swell((t - before - up - pace) / down));
  });
}

/** 0 before 0, 1 after 1, a half cosine between. */
const swell = (x: number): number => (x <= 0 ? 0 : x >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * x));

/** Noise of the surface's broadband shape that comes and goes with the motion. */
function broadband(run: RideDesign, pace: Float64Array, level: number): Float64Array {
  const source = random(run.seed * 1000 + 3);
  const white = pace.map(() => source.gaussian());
  const shaped = filtered(white, logger.rate, (f) => ({ re: Math.sqrt(broadbandShape(f)), im: 0 }));
  const size = Math.sqrt(shaped.reduce((sum, value) => sum + value * value, 0) / shaped.length);
  const rms = (surfaceDesigns[run.surface].broadband * level) / size;
  return shaped.map((value, n) => rms * value * Math.sqrt(pace[n] / ride.speed));
}

/** A pulse under the castors and under the rear wheels at each joint of the path, which every ride finds alike. */
function addJoints(base: Float64Array, run: RideDesign, pace: Float64Array, level: number): void {
  const { pitch, joint, jointWidth } = surfaceDesigns[run.surface];
  const path = random(pathSeed[run.surface]);
  const peaks = Array.from({ length: 2000 }, () => joint * Math.max(0.1, 1 + jointSpread * path.gaussian()));
  for (const [behind, weight] of [[0, castorWeight], [ride.wheelbase, 1]] as const) {
    let passed = 0;
    let distance = -behind;
    for (let n = 0; n < pace.length; n++) {
      distance += pace[n] / logger.rate;
      if (distance < (passed + 1) * pitch) continue;
      strike(base, n / logger.rate, jointWidth, weight * level * peaks[passed++]);
    }
  }
}

function strike(base: Float64Array, at: number, width: number, peak: number): void {
  const reach = Math.ceil(5 * width * logger.rate);
  const middle = Math.round(at * logger.rate);
  for (let n = Math.max(0, middle - reach); n <= Math.min(base.length - 1, middle + reach); n++)
    base[n] += peak * pulse(n / logger.rate - at, width);
}

/** What the logger writes of a motion: gravity, its gain, its noise, its steps. */
function logged(motion: Float64Array, seed: number): Float64Array {
  const source = random(seed * 1000 + 4);
  const noise = logger.noise * Math.sqrt(logger.rate / 2);
  const lie = 1 - 0.001 * Math.abs(source.gaussian());
  return motion.map((value) => {
    const read = logger.gain * (lie + value) + noise * source.gaussian();
    return Math.round(read / logger.step) * logger.step;
  });
}
