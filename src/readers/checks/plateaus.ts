import { isSameReading, type CheckedRun } from './checked.ts';
import { logOf } from '../../numbers/logarithm.ts';

/** Samples in a row at a channel's extreme, and how far the signal falls from it on either side, in its unit. */
export interface Plateau {
  readonly from: number;
  readonly to: number;
  readonly drop: number;
}

/** How a channel stands at its largest or smallest value. */
export interface Extreme {
  readonly value: number;
  readonly plateaus: readonly Plateau[];
  readonly samples: number;
  /** Visits to the levels just inside of it. */
  readonly inside: number;
}

/** Levels inside of an extreme that it is held against: a sine spends as long at the extreme as at the next three. */
const levelsInside = 3;

/**
 * A channel's largest (`side` 1) or smallest (-1) value and how it stands there. No plateau goes across a gap.
 *
 * @param step smallest difference between two values
 * @param ends the channel's smallest and largest value
 */
export function extremeOf(
  { stretches }: Pick<CheckedRun, 'stretches'>,
  samples: Float64Array,
  side: 1 | -1,
  { step, ends: [low, high] }: { readonly step: number; readonly ends: readonly [number, number] },
): Extreme {
  const value = side > 0 ? high : low;
  const range = high - low;
  const plateaus: Plateau[] = [];
  // Whatever is alike the extreme lies within, and most samples lie beyond.
  const reach = Math.max((levelsInside + 0.5) * step, 2e-9 * range);
  let inside = 0;
  for (const { from, to } of stretches) {
    for (let i = from; i < to;) {
      const depth = side * (value - samples[i]);
      let end = i + 1;
      if (depth >= reach) {
        i = end;
        continue;
      }
      while (end < to && samples[end] === samples[i]) end++;
      const before = i > from ? side * (samples[i] - samples[i - 1]) : undefined;
      const after = end < to ? side * (samples[i] - samples[end]) : undefined;
      if (isSameReading(samples[i], value, range)) {
        const drops = [before, after].filter((drop) => drop !== undefined);
        plateaus.push({
          from: i,
          to: end,
          drop: drops.reduce((sum, drop) => sum + drop, 0) / Math.max(1, drops.length),
        });
      } else if (depth < (levelsInside + 0.5) * step) inside++;
      i = end;
    }
  }
  return { value, plateaus, samples: plateaus.reduce((sum, { from, to }) => sum + to - from, 0), inside };
}

/**
 * Whether at most a share of the signal's tops on one side, at any level, are so many: readings from which it falls on
 * either side. They are counted as far as the answer needs.
 */
export function isWithinTops(
  count: number,
  share: number,
  { stretches }: Pick<CheckedRun, 'stretches'>,
  samples: Float64Array,
  side: 1 | -1,
): boolean {
  let tops = 0;
  for (const { from, to } of stretches) {
    // Whether the signal rose to the reading at hand, as it is taken to have done at the start.
    let rose = true;
    for (let i = from + 1; i < to; i++) {
      const step = side * (samples[i] - samples[i - 1]);
      if (step === 0) continue;
      if (step < 0 && rose && count <= share * ++tops) return true;
      rose = step > 0;
    }
    if (to > from && rose) tops++;
  }
  return count <= share * tops;
}

/**
 * How unlikely an extreme is to look as it does where nothing was cut off, as a natural logarithm (0: not at all
 * unlikely). Two things count:
 *
 * - More visits to the extreme than to the three levels inside of it. A sine, of all signals the fondest of its
 *   extremes, makes as many (arcsine density), others fewer; the chance is Chernoff's bound of the binomial tail at 1/2.
 * - Plateaus from which the signal falls more steeply than a rounded top would. That two samples of a top are one reading has a chance of
 *   about 2 steps over the fall, that n are one the (n - 1)th power of it. A parabola through the samples beside the plateau
 *   tells a rounded top: it rises over the plateau by drop (n - 1)^2 / (4 n), within two steps.
 *
 * @param usual how many samples a reading is held for anyway
 */
export function logChance({ plateaus, inside }: Extreme, step: number, usual: number): number {
  const visits = plateaus.length - 1 + inside;
  const share = visits === 0 ? 0 : (plateaus.length - 1) / visits;
  const byVisits = share <= 0.5 ? 0 : -visits * (share * logOf(2 * share) + xLogX(1 - share));
  return byVisits + plateaus.reduce((sum, plateau) => sum + logChanceOf(plateau, step, usual), 0);
}

/** (1 - share) ln(2 (1 - share)), and 0 at 0. */
const xLogX = (rest: number): number => (rest === 0 ? 0 : rest * logOf(2 * rest));

/** A plateau of more samples is no more telling, as what holds a reading for long may not be the end of a range. */
const mostTelling = 5;

function logChanceOf({ from, to, drop }: Plateau, step: number, usual: number): number {
  const samples = Math.floor((to - from) / usual);
  if (!isCutOff(samples, drop / step)) return 0;
  return (Math.min(samples, mostTelling) - 1) * logOf((2 * step) / drop);
}

const isCutOff = (samples: number, drop: number): boolean =>
  samples > 1 && (drop * (samples - 1) ** 2) / (4 * samples) > 2;

/** Samples that 99 of 100 readings do not last beyond, those at the extremes apart. */
export function usualHold(samples: Float64Array, extremes: readonly number[]): number {
  const lengths = new Map<number, number>();
  let readings = 0;
  for (let i = 0; i < samples.length;) {
    let end = i + 1;
    while (end < samples.length && samples[end] === samples[i]) end++;
    if (!extremes.includes(samples[i])) {
      readings++;
      lengths.set(end - i, (lengths.get(end - i) ?? 0) + 1);
    }
    i = end;
  }
  return usualLength(lengths, readings);
}

/** The length that 99 of 100 do not exceed, of so many in all. @param lengths how often each occurs */
export function usualLength(lengths: ReadonlyMap<number, number>, count: number): number {
  let left = Math.floor(0.99 * (count - 1));
  for (const length of [...lengths.keys()].sort((a, b) => a - b)) {
    left -= lengths.get(length) ?? 0;
    if (left < 0) return length;
  }
  return 1;
}
