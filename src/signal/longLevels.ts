import { PowerSums, type FirstLook } from './blockSums.ts';
import { levelsFrom, momentsAbout, type Levels, type Moments } from './levels.ts';

/** Shares of the time that levels are given for. */
const shares = [0.99, 0.999];
/** Distances from the mean are counted in so many equal steps up to the largest. */
const bins = 2 ** 16;
/** What a Map holds is limited; more distances than this go into the next one. */
const mostInMap = 2 ** 23;

/**
 * Levels of a signal that comes block by block, to the last digit those that `levels` gives of the whole, by two passes
 * after the first look: in one its moments, and how many of its samples are about how far from the mean; in the other
 * the distances among which the percentiles lie. Any distance of the second pass is off by no more than the rounding of
 * the mean of the first look, so that a percentile lies in the bin of its rank or beside it.
 */
export class LevelSums {
  readonly #first: FirstLook;
  readonly #peak: number;
  readonly #powers: PowerSums;
  readonly #counts = new Float64Array(bins);
  #wanted: Wanted | undefined;

  constructor(first: FirstLook) {
    this.#first = first;
    this.#peak = Math.max(first.largest - first.mean, first.mean - first.smallest);
    this.#powers = new PowerSums(first.mean);
  }

  /** Adds the next samples in the second pass. */
  add(samples: Float64Array): void {
    const { mean } = this.#first;
    this.#powers.add(samples);
    for (let i = 0; i < samples.length; i++) this.#counts[this.#binOf(Math.abs(samples[i] - mean))]++;
  }

  /** Adds the next samples in the third pass. */
  addAgain(samples: Float64Array): void {
    if (this.#peak === 0) return;
    const { mean } = this.#first;
    const { mean: exact } = this.moments;
    const { isIn, least, distances } = (this.#wanted ??= this.#wantedOf(exact));
    for (let i = 0; i < samples.length; i++) {
      const distance = Math.abs(samples[i] - mean);
      // Nearly all lie nearer than any percentile.
      if (distance < least) continue;
      if (isIn[this.#binOf(distance)] === 1) distances.add(Math.abs(samples[i] - exact));
    }
  }

  /** The moments, divided by the count; known after the second pass. */
  get moments(): Moments {
    const { count, mean, smallest, largest } = this.#first;
    return { ...momentsAbout(mean, this.#powers.found, count), count, smallest, largest };
  }

  /** The levels; known after the third pass. */
  get levels(): Levels {
    const [p99, p999] = shares.map((share) => this.#percentile(share));
    return levelsFrom(this.moments, { p99, p999 });
  }

  #binOf(distance: number): number {
    return this.#peak === 0 ? 0 : Math.min(bins - 1, Math.floor((distance / this.#peak) * bins));
  }

  #wantedOf(exact: number): Wanted {
    const { mean, count } = this.#first;
    const off = Math.abs(exact - mean) + 4 * Number.EPSILON * (Math.abs(mean) + this.#peak);
    const beside = 1 + Math.ceil((2 * off * bins) / this.#peak);
    const isIn = new Uint8Array(bins);
    for (const share of shares) {
      const rank = Math.floor(share * (count - 1));
      for (const one of [rank, Math.min(rank + 1, count - 1)]) {
        const bin = this.#binOfRank(one);
        isIn.fill(1, Math.max(0, bin - beside), bin + beside + 1);
      }
    }
    // A bin before the first of them, whatever the rounding.
    const least = ((isIn.indexOf(1) - 1) / bins) * this.#peak;
    return { isIn, least, distances: new Distances() };
  }

  #binOfRank(rank: number): number {
    let before = 0;
    for (let bin = 0; bin < bins; bin++) if ((before += this.#counts[bin]) > rank) return bin;
    return bins - 1;
  }

  #distanceOf(rank: number): number {
    if (this.#wanted === undefined) return 0;
    const { isIn, distances } = this.#wanted;
    const below = this.#counts.subarray(0, this.#binOfRank(rank));
    return distances.ofRank(rank - below.reduce((sum, count, bin) => (isIn[bin] === 1 ? sum : sum + count), 0));
  }

  /** As `percentiles` has it. */
  #percentile(share: number): number {
    const place = share * (this.#first.count - 1);
    const index = Math.floor(place);
    const part = place - index;
    const low = this.#distanceOf(index);
    if (part === 0) return low;
    const high = this.#distanceOf(index + 1);
    return part < 0.5 ? low + (high - low) * part : high - (high - low) * (1 - part);
  }
}

/** The bins that a percentile may lie in, and the distances found in them. */
interface Wanted {
  readonly isIn: Uint8Array;
  /** Nearer than this is in none of them. */
  readonly least: number;
  readonly distances: Distances;
}

/** Distances and how often each is there: readings in steps have few of them, however many samples there are. */
class Distances {
  readonly #maps = [new Map<number, number>()];
  #sorted: (readonly [distance: number, count: number])[] | undefined;

  add(distance: number): void {
    let map = this.#maps[this.#maps.length - 1];
    if (map.size >= mostInMap) this.#maps.push((map = new Map<number, number>()));
    map.set(distance, (map.get(distance) ?? 0) + 1);
  }

  /** @param rank from 0 at the smallest */
  ofRank(rank: number): number {
    this.#sorted ??= this.#maps.flatMap((map) => [...map]).sort(([a], [b]) => a - b);
    let before = 0;
    for (const [distance, count] of this.#sorted) if ((before += count) > rank) return distance;
    return this.#sorted[this.#sorted.length - 1][0];
  }
}
