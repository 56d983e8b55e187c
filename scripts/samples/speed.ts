import { ride, type RunDesign } from './design.ts';
import { random, smoothCurve } from './random.ts';

/** A ride from the logger's start to its stop, sample by sample. */
export interface Progress {
  /** m/s */
  readonly speed: Float64Array;
  /** m from the start line, of the castors. */
  readonly distance: Float64Array;
  /** When the chair is at its pace, in s; and its mean speed between, in m/s. */
  readonly from: number;
  readonly to: number;
  readonly pace: number;
}

const rampUp = 2.2;
const rampDown = 1.8;
/** Steps a second of whoever pushes. */
const steps = 1.85;

/** Still, push off, walk to the end of the path, stop, still. */
export function progressOf(run: RunDesign, rate: number): Progress {
  const source = random(run.seed * 1000 + 1);
  const start = 6.2 + 1.4 * source.uniform();
  const pace = ride.speed * (1 + 0.008 * source.gaussian());
  const stepRate = steps * (1 + 0.02 * source.gaussian());
  const restAfter = 5.5 + 2 * source.uniform();
  const wander = smoothCurve(source, 6, 120);
  const end = (run.stopsAt ?? ride.length) - (pace * rampDown) / 2;
  const speed: number[] = [];
  const distance: number[] = [];
  let covered = 0;
  let braking = Infinity;
  for (let n = 0; n / rate < Math.min(braking + rampDown + restAfter, 93); n++) {
    const t = n / rate;
    if (braking === Infinity && covered >= end) braking = t;
    const ripple = 1 + 0.012 * wander(t) + 0.015 * Math.sin(2 * Math.PI * stepRate * t);
    const v = pace * ripple * swell((t - start) / rampUp) * (1 - swell((t - braking) / rampDown));
    covered += v / rate;
    speed.push(v);
    distance.push(covered);
  }
  return summary(Float64Array.from(speed), Float64Array.from(distance), rate, start + rampUp, braking);
}

/** 0 before 0, 1 after 1, a half cosine between. */
const swell = (x: number): number => (x <= 0 || Number.isNaN(x) ? 0 : x >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * x));

function summary(speed: Float64Array, distance: Float64Array, rate: number, from: number, to: number): Progress {
  const first = Math.round(from * rate);
  const last = Math.round(to * rate);
  return { speed, distance, from, to, pace: (distance[last] - distance[first]) / ((last - first) / rate) };
}
