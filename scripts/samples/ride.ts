import { castorWeight, frameResponse, logger, pad, ride, surfaces, transmissibility } from './design.ts';
import { broadbandShape, type Complex, type Mount, type RunDesign } from './design.ts';
import { filtered } from './fourier.ts';
import { pathOf, rollOver } from './path.ts';
import { random, smoothCurve, type Random } from './random.ts';
import { progressOf, type Progress } from './speed.ts';

/** Acceleration in g in the chair's own axes: x forward, y to the left, z up; gravity not yet in it. */
export interface Motion {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

const gravity = 9.80665;
const sideways: Readonly<Record<'x' | 'y', { readonly share: number; readonly mount: Mount }>> = {
  x: { share: 0.45, mount: { frequency: 13, damping: 0.25 } },
  y: { share: 0.35, mount: { frequency: 9, damping: 0.3 } },
};

/** Motion on top of the pad during one ride, at the given rate in Hz. */
export function rideOn(run: RunDesign, rate: number): { readonly motion: Motion; readonly progress: Progress } {
  const progress = progressOf(run, rate);
  const source = random(run.seed * 1000 + 2);
  const level = Math.exp(ride.scatter * source.gaussian() + ride.drift * (run.order - 5));
  const envelope = envelopeOf(run, progress, rate, level);
  const pulses = pulsesOf(run, progress, rate, level);
  const mount = pad(run.surface, run.condition);
  const base = broadband(source, envelope, rate, surfaces[run.surface].broadband);
  const z = filtered(add(base, pulses, 1), rate, (f) => product(frameResponse(f), transmissibility(mount, f)));
  const x = across('x', run, source, envelope, pulses, rate);
  const y = across('y', run, source, envelope, pulses, rate);
  addSurge(x, progress.speed, rate);
  return { motion: { x: add(x, sitter(source, z.length, rate), 1), y: add(y, sitter(source, z.length, rate), 1.5), z: add(z, sitter(source, z.length, rate), 1) }, progress };
}

/** Level of the broadband motion at each sample: speed, the path's roughness, and a slow wandering of its own. */
function envelopeOf(run: RunDesign, { speed, distance }: Progress, rate: number, level: number): Float64Array {
  const { roughness } = pathOf(run.surface);
  const own = smoothCurve(random(run.seed * 1000 + 3), 5, 100);
  // The band level of a path whose displacement density falls with the square of the wave number grows with √speed.
  return speed.map((v, n) => level * Math.sqrt(v / ride.speed) * roughness(distance[n]) * Math.exp(0.035 * own(n / rate)));
}

function broadband(source: Random, envelope: Float64Array, rate: number, rms: number): Float64Array {
  const white = envelope.map(() => source.gaussian());
  const shaped = filtered(white, rate, (f) => ({ re: Math.sqrt(broadbandShape(f)), im: 0 }));
  const size = Math.sqrt(shaped.reduce((sum, value) => sum + value * value, 0) / shaped.length);
  return shaped.map((value, n) => (rms / size) * value * envelope[n]);
}

/** Joints and single obstacles, under the castors and then under the rear wheels. */
function pulsesOf(run: RunDesign, { distance }: Progress, rate: number, level: number): Float64Array {
  const { joints, obstacles } = pathOf(run.surface);
  const base = new Float64Array(distance.length);
  const rear = distance.map((s) => s - ride.wheelbase);
  rollOver(base, rate, distance, joints, castorWeight * level);
  rollOver(base, rate, rear, joints, level);
  rollOver(base, rate, distance, obstacles, castorWeight * level);
  rollOver(base, rate, rear, obstacles, level);
  return base;
}

function across(axis: 'x' | 'y', run: RunDesign, source: Random, envelope: Float64Array, pulses: Float64Array, rate: number): Float64Array {
  const { share, mount } = sideways[axis];
  const base = broadband(source, envelope, rate, share * surfaces[run.surface].broadband);
  return filtered(add(base, pulses, 0.6 * share), rate, (f) => transmissibility(mount, f));
}

/** The chair's own speeding up and slowing down. */
function addSurge(x: Float64Array, speed: Float64Array, rate: number): void {
  for (let n = 1; n < x.length; n++) x[n] += ((speed[n] - speed[n - 1]) * rate) / gravity;
}

/** A sitter is never quite still: breath, pulse, posture; some mg below 5 Hz. */
function sitter(source: Random, length: number, rate: number): Float64Array {
  const white = Float64Array.from({ length }, () => source.gaussian());
  const slow = filtered(white, rate, (f) => ({ re: 1 / (1 + (f / 2.5) ** 4), im: 0 }));
  const breath = 2 * Math.PI * source.uniform();
  return slow.map((value, n) => 0.012 * value + 0.0015 * Math.sin((2 * Math.PI * 0.27 * n) / rate + breath));
}

const add = (a: Float64Array, b: Float64Array, weight: number): Float64Array => a.map((value, n) => value + weight * b[n]);

const product = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });

/** How the logger lies: nose down by `pitch`, to the left by `roll`, both in degrees. */
export interface Lie {
  readonly pitch: number;
  readonly roll: number;
}

/** What the logger writes, in steps of its own, of a motion: gravity, its lie, its gain, noise and slow drift. */
export function logged(motion: Motion, lie: Lie, seed: number): Motion {
  const source = random(seed * 1000 + 4);
  const [p, r] = [(lie.pitch * Math.PI) / 180, (lie.roll * Math.PI) / 180];
  const [cp, sp, cr, sr] = [Math.cos(p), Math.sin(p), Math.cos(r), Math.sin(r)];
  const noise = logger.noise * Math.sqrt(logger.rate / 2);
  const drift = 0.004 * source.gaussian();
  const length = motion.x.length;
  const [x, y, z] = [new Float64Array(length), new Float64Array(length), new Float64Array(length)];
  for (let n = 0; n < length; n++) {
    const up = motion.z[n] + 1;
    const tilted = cr * up - sr * motion.y[n];
    x[n] = step(cp * motion.x[n] - sp * tilted + noise * source.gaussian());
    y[n] = step(cr * motion.y[n] + sr * up + noise * source.gaussian());
    z[n] = step(sp * motion.x[n] + cp * tilted + drift * (n / length) + noise * source.gaussian());
  }
  return { x, y, z };
}

const step = (value: number): number =>
  Math.max(-logger.range, Math.min(logger.range, Math.round((value * logger.gain) / logger.step) * logger.step));
