// Sums are taken block by block from the first sample on, so that a long record rounds like a short one, and in whatever
// pieces the samples come.

/** Samples of a block. */
const blockLength = 2048;

/** What is known of a signal after one pass over it, in its unit. */
export interface FirstLook {
  readonly count: number;
  readonly mean: number;
  readonly smallest: number;
  readonly largest: number;
}

/** Count, mean and extremes of a signal that comes in pieces: to the last digit the same for any of them. */
export class MeanSum {
  #sum = 0;
  #smallest = Infinity;
  #largest = -Infinity;
  #count = 0;
  /** Of the block that is not full yet. */
  #part = 0;

  /** Adds the next samples, in the signal's unit. */
  add(samples: Float64Array): void {
    let [sum, smallest, largest, part] = [this.#sum, this.#smallest, this.#largest, this.#part];
    let room = blockLength - (this.#count % blockLength);
    for (let from = 0; from < samples.length;) {
      const to = Math.min(from + room, samples.length);
      for (let i = from; i < to; i++) {
        const value = samples[i];
        part += value;
        if (value < smallest) smallest = value;
        if (value > largest) largest = value;
      }
      room -= to - from;
      from = to;
      if (room > 0) continue;
      sum += part;
      part = 0;
      room = blockLength;
    }
    this.#count += samples.length;
    [this.#sum, this.#smallest, this.#largest, this.#part] = [sum, smallest, largest, part];
  }

  /** What the samples are known by; of none the mean is no number. */
  get found(): FirstLook {
    const [count, smallest, largest] = [this.#count, this.#smallest, this.#largest];
    const mean = (this.#sum + this.#part) / count;
    // A sample that is no number is neither the smallest nor the largest.
    return { count, mean: smallest === largest && !Number.isNaN(mean) ? smallest : mean, smallest, largest };
  }
}

/** Sums of the powers 1 to 4 of the distance of samples that come in pieces from about their mean. */
export class PowerSums {
  readonly #about: number;
  readonly #total = new Float64Array(4);
  /** Of the block that is not full yet. */
  readonly #part = new Float64Array(4);
  #held = 0;

  /** @param about what is taken from each sample, in the signal's unit */
  constructor(about: number) {
    this.#about = about;
  }

  /** Adds the next samples, in the signal's unit. */
  add(samples: Float64Array): void {
    for (let from = 0; from < samples.length;) {
      const to = Math.min(from + blockLength - this.#held, samples.length);
      addPowers(samples, from, to, this.#about, this.#part);
      this.#held += to - from;
      from = to;
      if (this.#held < blockLength) continue;
      for (let k = 0; k < 4; k++) this.#total[k] += this.#part[k];
      this.#part.fill(0);
      this.#held = 0;
    }
  }

  /** The four sums, in the powers of the signal's unit. */
  get found(): number[] {
    return Array.from(this.#total, (sum, k) => sum + this.#part[k]);
  }
}

function addPowers(samples: Float64Array, from: number, to: number, mean: number, total: Float64Array): void {
  let [s1, s2, s3, s4] = total;
  for (let i = from; i < to; i++) {
    const d = samples[i] - mean;
    const square = d * d;
    s1 += d;
    s2 += square;
    s3 += square * d;
    s4 += square * square;
  }
  total[0] = s1;
  total[1] = s2;
  total[2] = s3;
  total[3] = s4;
}
