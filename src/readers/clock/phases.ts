import { atan2Of } from '../../numbers/arcs.ts';
import { cosOf, sinOf } from '../../numbers/trigonometry.ts';
import { settings } from '../settings.ts';
import type { Break } from './breaks.ts';
import { densest } from './losses.ts';
import { median } from './steps.ts';

/** Samples a second, and the breaks that the places of the rows on that clock tell. */
export interface PhasedClock {
  readonly rate: number;
  readonly breaks: readonly Break[];
}

/** Rows `from` up to but without `to`. */
interface Rows {
  readonly from: number;
  readonly to: number;
}

/**
 * A clock whose stamps are rounded about as coarsely as its step, whichever samples are lost: stamps rounded to q lie
 * within one q of even times i/f, so that their phases f·t keep to a part of the circle, and the sum of exp(2πi·f·t) stays
 * sinc(f·q) of their number however many are missing (the periodogram of a point process, Bartlett 1963). Undefined where
 * no rate between the bounds that the densest rows set stands out, as near a whole number of samples a quantum, or where rows
 * don't keep to it.
 * @param t stamps in s that never run backwards
 * @param quantum step that they are rounded to, in s
 * @param least rate in Hz that the true one is not below
 */
export function byPhases(t: Float64Array, quantum: number, least: number): PhasedClock | undefined {
  const most = mostRate(t, quantum);
  if (!(most > least)) return undefined;
  const count = Math.min(t.length, settings.phases.searched);
  const from = (t.length - count) >> 1;
  const block = { from, to: from + count };
  const low = Math.max(least, quantum > 0 ? lowest(t, quantum) : 0) * (1 - 1e-4);
  // Longer pieces cost more, and find what shorter ones leave in the noise.
  for (const rows of settings.phases.pieces) {
    const pieces = piecesOf(t, block, rows);
    const coarse = pieces.length < 4 ? undefined : strongest(t, pieces, low, most, quantum);
    if (coarse === undefined) continue;
    const { rate, length } = refined(t, block, coarse, rows);
    return placed(t, rate, quantum, Math.max(rows, length >> 2));
  }
  return undefined;
}

/** A rate in Hz that the true one is not above, if 16 rows without a loss are found anywhere. */
function mostRate(t: Float64Array, quantum: number): number {
  const shortest = densest(t, 16);
  return shortest > quantum ? 16 / (shortest - quantum) : 0;
}

/** As the least rate, by rows that stand so close that it matters which side of half a quantum the step is. */
const lowest = (t: Float64Array, quantum: number): number =>
  Math.max(...[1, 2, 4, 8].map((rows) => rows / (densest(t, rows) + quantum)));

/** Pieces of so many rows, none of them much longer in time than the usual. */
function piecesOf(t: Float64Array, { from, to }: Rows, rows: number): Rows[] {
  const pieces: Rows[] = [];
  for (let at = from; at + rows <= to; at += rows) pieces.push({ from: at, to: at + rows });
  const usual = median(Float64Array.from(pieces, (piece) => spanOf(t, piece)));
  return pieces.filter((piece) => spanOf(t, piece) <= 2 * usual);
}

const spanOf = (t: Float64Array, { from, to }: Rows): number => t[to - 1] - t[from];

/** The lowest rate whose power stands out as the largest does: with rates on both sides of half a quantum each has its mirror. */
function strongest(
  t: Float64Array,
  pieces: readonly Rows[],
  low: number,
  high: number,
  quantum: number,
): number | undefined {
  const span = Math.max(...pieces.map((piece) => spanOf(t, piece)));
  const [apart, rows] = [0.25 / span, pieces[0].to - pieces[0].from];
  const count = Math.ceil((high - low) / apart) + 1;
  if (!(count > 0 && count <= settings.phases.rates)) return undefined;
  const powers = new Float64Array(count);
  for (const piece of pieces) addPowers(powers, t, piece, low, apart);
  // Of a sum of so many phases at random, weighted by a Hann window, or more where losses come in bursts.
  const noise = Math.max(1.5 / rows, median(powers) / pieces.length);
  let best = 0;
  for (let k = 0; k < count; k++) {
    const off = (low + k * apart) * quantum;
    // Stamps are whole quanta, whatever their rate, and near to those any unevenness of the losses shows.
    if (Math.abs(off - Math.round(off)) < Math.max((4 * quantum) / span, settings.phases.near)) powers[k] = 0;
    powers[k] = powers[k] / pieces.length - noise;
    best = Math.max(best, powers[k]);
  }
  if (best < (settings.phases.above * noise) / Math.sqrt(pieces.length)) return undefined;
  return low + powers.findIndex((power) => power > 0.8 * best) * apart;
}

/** Adds a piece's power at each of evenly spaced rates, as a share of the power of phases that are all alike. */
function addPowers(powers: Float64Array, t: Float64Array, { from, to }: Rows, low: number, apart: number): void {
  const [re, im] = [new Float64Array(powers.length), new Float64Array(powers.length)];
  for (let i = from; i < to; i++) {
    const weight = hann(i - from, to - from);
    const [start, turn] = [2 * Math.PI * low * (t[i] - t[from]), 2 * Math.PI * apart * (t[i] - t[from])];
    const [c, s] = [cosOf(turn), sinOf(turn)];
    let [x, y] = [weight * cosOf(start), weight * sinOf(start)];
    for (let k = 0; k < re.length; k++) {
      re[k] += x;
      im[k] += y;
      [x, y] = [x * c - y * s, x * s + y * c];
    }
  }
  const whole = (to - from) / 2;
  for (let k = 0; k < powers.length; k++) powers[k] += (re[k] * re[k] + im[k] * im[k]) / (whole * whole);
}

const hann = (i: number, length: number): number => 0.5 - 0.5 * cosOf((2 * Math.PI * i) / length);

/** The rate by longer and longer pieces, for as long as the clock keeps step over them. */
function refined(t: Float64Array, block: Rows, coarse: number, rows: number): { rate: number; length: number } {
  let [rate, length, before] = [coarse, rows, 0];
  for (let tried = rows; tried <= block.to - block.from; tried *= 2) {
    const pieces = piecesOf(t, block, tried);
    const apart = 0.25 / Math.max(...pieces.map((piece) => spanOf(t, piece)));
    const powers = new Float64Array(9);
    for (const piece of pieces) addPowers(powers, t, piece, rate - 4 * apart, apart);
    const best = powers.reduce((at, power, k) => (power > powers[at] ? k : at), 0);
    const power = powers[best] / pieces.length - 1.5 / tried;
    if (power < 0.6 * before) break;
    [rate, length, before] = [rate + (best - 4) * apart, tried, power];
  }
  return { rate, length };
}

/** Gives each row its place on the clock, by the phase of the rows around it; undefined where many keep to none. */
function placed(t: Float64Array, rate: number, quantum: number, rows: number): PhasedClock | undefined {
  const phases = phasesOf(t, rate, quantum, rows);
  const width = rate * quantum;
  const breaks: Break[] = [];
  let [last, first, off] = [0, 0, 0];
  for (let i = 0; i < t.length; i++) {
    const place = rate * (t[i] - t[0]) - phaseAt(phases, i, rows);
    const near = width < 1 ? Math.round(place) : Math.ceil(place - width / 2 - 0.1);
    if (i === 0) first = last = near;
    else {
      const next = Math.max(near, last + 1);
      if (next > last + 1) breaks.push({ row: i, reset: false, missing: next - last - 1 });
      last = next;
    }
    if (Math.abs(place - last) > width / 2 + 0.15) off++;
  }
  const steps = last - first;
  if (off > settings.phases.off * t.length || t.length < settings.phases.share * steps) return undefined;
  return { rate: steps / (t[t.length - 1] - t[0]), breaks };
}

/** In turns, the middle of the part of the circle that each piece of so many rows keeps to, without jumps from piece to piece. */
function phasesOf(t: Float64Array, rate: number, quantum: number, rows: number): number[] {
  const phases: number[] = [];
  // Beyond a sample a quantum the sum points away from the middle.
  const turned = Math.floor(rate * quantum) % 2 === 0 ? 0 : 0.5;
  for (let from = 0; from === 0 || from + rows <= t.length; from += rows) {
    let [re, im] = [0, 0];
    for (let i = from; i < Math.min(from + rows, t.length); i++) {
      const angle = 2 * Math.PI * rate * (t[i] - t[0]);
      re += cosOf(angle);
      im += sinOf(angle);
    }
    const phase = atan2Of(im, re) / (2 * Math.PI) + turned;
    const before = phases.at(-1) ?? phase;
    phases.push(phase + Math.round(before - phase));
  }
  return phases;
}

/** The phase at a row, between those of the middles of the pieces around it. */
function phaseAt(phases: readonly number[], row: number, rows: number): number {
  const at = Math.min(Math.max(row / rows - 0.5, 0), phases.length - 1);
  const below = Math.min(Math.floor(at), Math.max(0, phases.length - 2));
  const above = Math.min(below + 1, phases.length - 1);
  return phases[below] + (phases[above] - phases[below]) * (at - below);
}
