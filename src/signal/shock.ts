import { atan2Of } from '../numbers/arcs.ts';
import { expOf } from '../numbers/exponential.ts';
import { cosOf, sinOf } from '../numbers/trigonometry.ts';

/** The largest responses of oscillators to one stretch, one of each for every natural frequency; in the input's unit. */
export interface ShockResponse {
  /** Largest in size at any time: the larger of primary and residual. */
  readonly maximax: Float64Array;
  /** Largest towards + and towards -, at any time; both at least 0. */
  readonly positive: Float64Array;
  readonly negative: Float64Array;
  /** Largest in size after the input's end. */
  readonly residual: Float64Array;
}

/** Filter of an oscillator's absolute acceleration: y = b0 x + b1 x' + b2 x'' - a1 y' - a2 y''. */
interface Oscillator {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number];
  /** Of one step: decay and angle of the free vibration. */
  readonly decay: number;
  readonly angle: number;
}

/**
 * Shock response spectrum of the absolute acceleration of oscillators on a base that moves by `samples`, by the
 * ramp-invariant filters of ISO 18431-4:2007 (Smallwood 1981, Shock and Vibration Bulletin 51): exact for an input that is
 * straight between its samples. A peak between two samples is read off the parabola through three; that of the free
 * vibration after the end, from rest of the input on, is exact.
 *
 * @param samples one unbroken stretch, about the value that stands for rest
 * @param rate samples a second, in Hz
 * @param frequencies undamped natural frequencies in Hz, above 0
 * @param damping fraction of critical damping, 0 to below 1: 0.05 is an amplification of 10
 * @returns values in the input's unit, in the order of the frequencies; at a tenth of the rate up to 4 % low, because the
 *   input is drawn straight between its samples
 */
export function shockResponse(
  samples: Float64Array,
  rate: number,
  frequencies: ArrayLike<number>,
  damping: number,
): ShockResponse {
  const count = frequencies.length;
  const [maximax, positive, negative, residual] = Array.from({ length: 4 }, () => new Float64Array(count));
  for (let k = 0; k < count; k++) {
    const oscillator = oscillatorAt(frequencies[k] / rate, damping);
    const { high, low, last, before } = primary(samples, oscillator);
    const after = free(last, before, oscillator);
    positive[k] = Math.max(0, high, after.high);
    negative[k] = Math.max(0, -low, -after.low);
    residual[k] = Math.max(after.high, -after.low);
    maximax[k] = Math.max(positive[k], negative[k]);
  }
  return { maximax, positive, negative, residual };
}

/** @param turns natural frequency over the rate */
function oscillatorAt(turns: number, damping: number): Oscillator {
  const decay = 2 * Math.PI * turns * damping;
  const angle = 2 * Math.PI * turns * Math.sqrt(1 - damping ** 2);
  const size = expOf(-decay);
  const sine = (size * sinOf(angle)) / angle;
  const cosine = size * cosOf(angle);
  return { b: [1 - sine, 2 * (sine - cosine), size ** 2 - sine], a: [-2 * cosine, size ** 2], decay, angle };
}

interface Primary {
  readonly high: number;
  readonly low: number;
  /** The first two responses to the input's return to rest. */
  readonly before: number;
  readonly last: number;
}

function primary(samples: Float64Array, { b: [b0, b1, b2], a: [a1, a2] }: Oscillator): Primary {
  let [x1, x2, y1, y2, high, low] = [0, 0, 0, 0, 0, 0];
  const step = (x: number): number => {
    const y = b0 * x + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
    if ((y1 - y) * (y1 - y2) >= 0) {
      const bend = y2 - 2 * y1 + y;
      const peak = bend === 0 ? y1 : y1 - (y2 - y) ** 2 / (8 * bend);
      if (peak > high) high = peak;
      if (peak < low) low = peak;
    }
    [x2, x1, y2, y1] = [x1, x, y1, y];
    return y;
  };
  for (const x of samples) step(x);
  // The input runs straight to rest within one step; from there on the vibration is free.
  const before = step(0);
  return { high, low, before, last: step(0) };
}

/** The extremes of a free vibration that has the value `before` and, a step later, `last`. */
function free(
  last: number,
  before: number,
  { decay, angle }: Oscillator,
): { readonly high: number; readonly low: number } {
  // y(t) = exp(-decay t) (c cos(angle t) + s sin(angle t)), t in steps.
  const c = before;
  const s = (last * expOf(decay) - c * cosOf(angle)) / sinOf(angle);
  const at = (t: number): number => expOf(-decay * t) * (c * cosOf(angle * t) + s * sinOf(angle * t));
  const turn = atan2Of(s * angle - c * decay, c * angle + s * decay);
  const first = (turn < 0 ? turn + Math.PI : turn) / angle;
  const peaks = [at(0), at(first), at(first + Math.PI / angle)];
  return { high: Math.max(...peaks), low: Math.min(...peaks) };
}
