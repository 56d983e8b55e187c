import {
  addPowers,
  addSum,
  blockLength,
  levelsFrom,
  momentsAbout,
  type Levels,
  type Moments,
  type SumAndExtent,
} from './levels.ts';

/** Count, mean and extremes of a signal that comes block by block. */
export class MeanSum {
  readonly #total: SumAndExtent = { sum: 0, smallest: Infinity, largest: -Infinity };
  #count = 0;

  /** Adds the next samples. */
  add(samples: Float64Array): void {
    addSum(samples, this.#total);
    this.#count += samples.length;
  }

  /** What the samples are known by after the first pass. */
  get found(): FirstLook {
    const { sum, smallest, largest } = this.#total;
    const count = this.#count;
    return { count, mean: smallest === largest ? smallest : sum / count, smallest, largest };
  }
}

/** Of a signal. */
export interface FirstLook {
  readonly count: number;
  readonly mean: number;
  readonly smallest: number;
  readonly largest: number;
}

/** Shares of the time that levels are given for. */
const shares = [0.99, 0.999];
/** Distances from the mean are counted in so many equal steps up to the largest. */
const bins = 2 ** 16;

/**
 * Levels of a signal that comes block by block, as `levels` gives them but for the last digits: in a second pass its
 * moments, and how many of its samples are how far from the mean; in a third one, where it is `unsettled`, those samples
 * between which the percentiles lie.
 */
export class LevelSums {
  readonly #first: FirstLook;
  readonly #peak: number;
  readonly #powers = [0, 0, 0, 0];
  readonly #counts = new Float64Array(bins);
  readonly #low = new Float64Array(bins).fill(Infinity);
  readonly #high = new Float64Array(bins).fill(-Infinity);
  /** Of the bins whose values are wanted one by one. */
  #wanted: Map<number, { readonly values: Float64Array; filled: number }> | undefined;

  constructor(first: FirstLook) {
    this.#first = first;
    this.#peak = Math.max(first.largest - first.mean, first.mean - first.smallest);
  }

  /** Adds the next samples in the second pass. */
  add(samples: Float64Array): void {
    const { mean } = this.#first;
    for (let from = 0; from < samples.length; from += blockLength)
      addPowers(samples, from, Math.min(from + blockLength, samples.length), mean, this.#powers);
    for (let i = 0; i < samples.length; i++) {
      const distance = Math.abs(samples[i] - mean);
      const bin = this.#binOf(distance);
      this.#counts[bin]++;
      if (distance < this.#low[bin]) this.#low[bin] = distance;
      if (distance > this.#high[bin]) this.#high[bin] = distance;
    }
  }

  /** Whether a third pass is needed: `addAgain` is then given all samples once more. */
  get isUnsettled(): boolean {
    this.#wanted ??= this.#wantedBins();
    return this.#wanted.size > 0;
  }

  /** Adds the next samples in the third pass. */
  addAgain(samples: Float64Array): void {
    const { mean } = this.#first;
    for (let i = 0; i < samples.length; i++) {
      const distance = Math.abs(samples[i] - mean);
      const own = this.#wanted?.get(this.#binOf(distance));
      if (own !== undefined) own.values[own.filled++] = distance;
    }
  }

  /** The moments, divided by the count. */
  get moments(): Moments {
    const { count, mean, smallest, largest } = this.#first;
    return { ...momentsAbout(mean, this.#powers, count), count, smallest, largest };
  }

  /** The levels. */
  get levels(): Levels {
    for (const { values } of this.#wanted?.values() ?? []) values.sort();
    const [p99, p999] = this.#peak === 0 ? [0, 0] : shares.map((share) => this.#percentile(share));
    return levelsFrom(this.moments, { p99, p999 });
  }

  #binOf(distance: number): number {
    return this.#peak === 0 ? 0 : Math.min(bins - 1, Math.floor((distance / this.#peak) * bins));
  }

  #wantedBins(): Map<number, { readonly values: Float64Array; filled: number }> {
    const ranks = shares.flatMap((share) => {
      const place = Math.floor(share * (this.#first.count - 1));
      return [place, Math.min(place + 1, this.#first.count - 1)];
    });
    const found = ranks.map((rank) => this.#placeOf(rank).bin).filter((bin) => this.#low[bin] !== this.#high[bin]);
    return new Map([...new Set(found)].map((bin) => [bin, { values: new Float64Array(this.#counts[bin]), filled: 0 }]));
  }

  #placeOf(rank: number): { readonly bin: number; readonly within: number } {
    let before = 0;
    for (let bin = 0; bin < bins; bin++) {
      if (before + this.#counts[bin] > rank) return { bin, within: rank - before };
      before += this.#counts[bin];
    }
    return { bin: bins - 1, within: 0 };
  }

  #distanceOf(rank: number): number {
    const { bin, within } = this.#placeOf(rank);
    return this.#wanted?.get(bin)?.values[within] ?? this.#low[bin];
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
