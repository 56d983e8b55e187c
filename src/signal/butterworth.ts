import { powerOf } from '../numbers/power.ts';
import { cosOf, sinOf, tanOf } from '../numbers/trigonometry.ts';

/** One second-order section b0 + b1/z + b2/z^2 over 1 + a1/z + a2/z^2. */
export interface Section {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

export type FilterKind = 'lowpass' | 'highpass' | 'bandpass';

interface Complex {
  readonly re: number;
  readonly im: number;
}

/** Poles in the upper half plane (each stands for itself and its mirror image) and on the real axis. */
interface Poles {
  readonly pairs: readonly Complex[];
  readonly reals: readonly number[];
}

/**
 * A digital Butterworth filter as second-order sections, by the bilinear transform with the corners pre-warped,
 * poles and zeros paired and ordered as scipy.signal.butter(output='sos') does. At a corner the response is
 * 1/sqrt 2 (-3.01 dB); applied forwards and backwards, 1/2 (-6.02 dB). The passband is lifted to 1.
 * Butterworth 1930, Experimental Wireless 7; Oppenheim and Schafer, Discrete-Time Signal Processing, 7.
 *
 * @param kind which side of the corners is passed
 * @param order number of poles, at least 1; a bandpass has twice as many
 * @param corners one frequency in Hz, or two for a bandpass, each above 0 and below half the rate
 * @param rate in Hz
 * @returns the sections in the order in which they are applied
 * @throws RangeError for an order or corners out of range, or exchanged
 */
export function butterworth(kind: FilterKind, order: number, corners: readonly number[], rate: number): Section[] {
  requireDesign(kind, order, corners, rate);
  const warped = corners.map((corner) => 4 * tanOf((Math.PI * (corner / (rate / 2))) / 2));
  const analog = analogPoles(kind, order, warped);
  const fold = kind === 'bandpass' ? 2 * order : order;
  // Numerator constant: the passband is lifted to 1.
  let gain =
    kind === 'highpass'
      ? powerOf(4, order)
      : kind === 'lowpass'
        ? powerOf(warped[0], order)
        : powerOf(4 * (warped[1] - warped[0]), order);
  for (const { re, im } of analog.pairs) gain /= (4 - re) ** 2 + im ** 2;
  for (const re of analog.reals) gain /= 4 - re;
  const pairs = analog.pairs.map(bilinear).sort((a, b) => a.re - b.re || a.im - b.im);
  const reals = analog.reals.map((re) => (4 + re) / (4 - re));
  const zeros: number[] = [];
  if (kind !== 'highpass') zeros.push(...Array<number>(order).fill(-1));
  if (kind !== 'lowpass') zeros.push(...Array<number>(order).fill(1));
  if (fold % 2 === 1) {
    reals.push(0);
    zeros.push(0);
  }
  const sections = pairUp(
    pairs,
    reals.sort((a, b) => a - b),
    zeros.sort((a, b) => a - b),
  );
  const first = sections[0];
  sections[0] = { ...first, b0: first.b0 * gain, b1: first.b1 * gain, b2: first.b2 * gain };
  return sections;
}

function requireDesign(kind: FilterKind, order: number, corners: readonly number[], rate: number): void {
  if (!(Number.isInteger(order) && order >= 1))
    throw new RangeError(`a filter's order is a whole number from 1, not ${order}`);
  if (corners.length !== (kind === 'bandpass' ? 2 : 1))
    throw new RangeError(`a ${kind} has ${kind === 'bandpass' ? 'two corners' : 'one corner'}`);
  for (const corner of corners) {
    if (!(corner > 0 && corner < rate / 2)) {
      throw new RangeError(
        `a filter's corner lies above 0 and below half the rate, ${rate / 2} Hz; not at ${corner} Hz`,
      );
    }
  }
  if (corners.length === 2 && !(corners[0] < corners[1]))
    throw new RangeError(`a bandpass has its lower corner first, not ${corners.join('..')} Hz`);
}

/** Poles of the analog filter; the prototype's lie on the left half of the unit circle. */
function analogPoles(kind: FilterKind, order: number, warped: readonly number[]): Poles {
  const prototype: Complex[] = [];
  for (let m = 1 - order; m <= 0; m += 2) {
    prototype.push({
      re: -cosOf((Math.PI * m) / (2 * order)),
      im: m === 0 ? 0 : -sinOf((Math.PI * m) / (2 * order)),
    });
  }
  const pairs: Complex[] = [];
  const reals: number[] = [];
  for (const { re, im } of prototype) {
    if (kind === 'bandpass') {
      bandpassPoles({ re, im }, warped[1] - warped[0], Math.sqrt(warped[0] * warped[1]), pairs, reals);
    } else {
      // On the unit circle 1/p is the mirror image of p, which is a pole as well.
      if (im === 0) reals.push(re * warped[0]);
      else pairs.push({ re: re * warped[0], im: im * warped[0] });
    }
  }
  return { pairs, reals };
}

/** A prototype pole p becomes p B/2 +- sqrt((p B/2)^2 - w0^2). */
function bandpassPoles({ re, im }: Complex, width: number, centre: number, pairs: Complex[], reals: number[]): void {
  const half = { re: (re * width) / 2, im: (im * width) / 2 };
  const root = squareRoot({ re: half.re ** 2 - half.im ** 2 - centre ** 2, im: 2 * half.re * half.im });
  const found = [
    { re: half.re + root.re, im: half.im + root.im },
    { re: half.re - root.re, im: half.im - root.im },
  ];
  if (im !== 0) pairs.push(...found.map((pole) => ({ re: pole.re, im: Math.abs(pole.im) })));
  else if (root.re === 0) pairs.push({ re: half.re, im: Math.abs(root.im) });
  else reals.push(found[0].re, found[1].re);
}

function squareRoot({ re, im }: Complex): Complex {
  if (im === 0) return re >= 0 ? { re: Math.sqrt(re), im: 0 } : { re: 0, im: Math.sqrt(-re) };
  const size = Math.hypot(re, im);
  const larger = Math.sqrt((size + Math.abs(re)) / 2);
  const smaller = Math.abs(im) / (2 * larger);
  return re >= 0 ? { re: larger, im: Math.sign(im) * smaller } : { re: smaller, im: Math.sign(im) * larger };
}

function bilinear({ re, im }: Complex): Complex {
  const size = (4 - re) ** 2 + im ** 2;
  return { re: (16 - re ** 2 - im ** 2) / size, im: (8 * im) / size };
}

/**
 * Sections from the pole nearest the unit circle, which comes last, to the one farthest; each pole takes the
 * zero nearest to it, and then the real zero nearest to it. The lists are used up.
 */
function pairUp(pairs: Complex[], reals: number[], zeros: number[]): Section[] {
  const sections: Section[] = [];
  while (pairs.length + reals.length > 0) {
    const pair = indexOfLeast(pairs, ({ re, im }) => Math.abs(1 - Math.hypot(re, im)));
    const real = indexOfLeast(reals, (re) => Math.abs(1 - Math.abs(re)));
    const pairFirst =
      real < 0 ||
      (pair >= 0 && Math.abs(1 - Math.hypot(pairs[pair].re, pairs[pair].im)) <= Math.abs(1 - Math.abs(reals[real])));
    let a1: number;
    let a2: number;
    let pole: Complex;
    if (pairFirst) {
      [pole] = pairs.splice(pair, 1);
      a1 = -2 * pole.re;
      a2 = pole.re ** 2 + pole.im ** 2;
    } else {
      const [first] = reals.splice(real, 1);
      // The number of real poles is even: a filter of odd order was given one more, at 0.
      const [second] = reals.splice(
        indexOfLeast(reals, (re) => Math.abs(1 - Math.abs(re))),
        1,
      );
      pole = { re: first, im: 0 };
      a1 = -(first + second);
      a2 = first * second;
    }
    const distance = (zero: number): number => Math.hypot(zero - pole.re, pole.im);
    const [z1] = zeros.splice(indexOfLeast(zeros, distance), 1);
    const [z2] = zeros.splice(indexOfLeast(zeros, distance), 1);
    sections.unshift({ b0: 1, b1: -(z1 + z2), b2: z1 * z2, a1, a2 });
  }
  return sections;
}

function indexOfLeast<T>(items: readonly T[], measure: (item: T) => number): number {
  let least = -1;
  let value = Infinity;
  items.forEach((item, i) => {
    const found = measure(item);
    if (found < value) {
      least = i;
      value = found;
    }
  });
  return least;
}
