import { cosOf, sinOf } from '../numbers/trigonometry.ts';

/** Samples to either side that a value in between is made of; flat up to 0.44 of the rate. */
export const reach = 24;
const phases = 512;
/** Samples by which a place may come out beyond the piece. */
const rounding = 1e-6;

/**
 * Values between the samples of an unbroken piece, by a sinc with a Blackman window over 2 x 24 samples (Oppenheim and
 * Schafer, Discrete-Time Signal Processing, 7.2): at places first, first + step, and so on.
 *
 * @param samples evenly spaced; what lies above half their rate must be gone already
 * @param first place of the first value in samples from the piece's first, at least `reach` - 1
 * @param step in samples, above 0
 * @param count of values; the last place lies at most `reach` before the piece's end
 * @throws RangeError for a place that the piece does not hold
 */
export function valuesBetween(samples: Float64Array, first: number, step: number, count: number): Float64Array {
  const last = first + step * (count - 1);
  if (count > 0 && !(first >= reach - 1 - rounding && last <= samples.length - reach + rounding))
    throw new RangeError(
      `places ${first} to ${last} reach outside ${samples.length} samples less ${reach} at each end`,
    );
  const values = new Float64Array(count);
  // Made when it is first needed, which most programs never do.
  const table = (known ??= phaseTable());
  for (let i = 0; i < count; i++) {
    const place = first + i * step;
    const whole = Math.max(reach - 1, Math.min(Math.floor(place), samples.length - reach - 1));
    const part = (place - whole) * phases;
    const phase = Math.max(0, Math.min(Math.floor(part), phases - 1));
    const share = part - phase;
    const row = phase * 2 * reach;
    let sum = 0;
    for (let k = 0, at = whole - reach + 1; k < 2 * reach; k++, at++) {
      const weight = table[row + k];
      sum += samples[at] * (weight + share * (table[row + 2 * reach + k] - weight));
    }
    values[i] = sum;
  }
  return values;
}

/**
 * Which values of a row first + i x step, i from 0 to `count`, a piece holds (see `valuesBetween`).
 *
 * @param length samples of the piece
 * @param first in samples from the piece's first
 * @param step likewise, above 0
 * @param count of values
 * @returns the first of them, and the one after the last
 */
export function placesWithin(
  length: number,
  first: number,
  step: number,
  count: number,
): { readonly from: number; readonly to: number } {
  const from = Math.max(0, Math.ceil((reach - 1 - first) / step));
  const to = Math.min(count, Math.floor((length - reach - first) / step) + 1);
  return { from, to: Math.max(from, to) };
}

/** Weights of the 2 x `reach` samples about a place, for each phase between two samples; each row adds up to 1. */
let known: Float64Array | undefined;

function phaseTable(): Float64Array {
  const rows = new Float64Array((phases + 1) * 2 * reach);
  for (let phase = 0; phase <= phases; phase++) {
    const row = rows.subarray(phase * 2 * reach, (phase + 1) * 2 * reach);
    let sum = 0;
    for (let k = 0; k < row.length; k++) {
      const x = k - reach + 1 - phase / phases;
      const sinc = x === 0 ? 1 : sinOf(Math.PI * x) / (Math.PI * x);
      const angle = (Math.PI * x) / reach;
      row[k] = sinc * (0.42 + 0.5 * cosOf(angle) + 0.08 * cosOf(2 * angle));
      sum += row[k];
    }
    for (let k = 0; k < row.length; k++) row[k] /= sum;
  }
  return rows;
}
