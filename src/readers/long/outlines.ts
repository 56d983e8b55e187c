import type { Outline } from '../recording.ts';

/** Takes the lowest and the highest of every so many samples of several channels, as the samples come. */
export class Outlines {
  readonly #stride: number;
  readonly #low: number[][];
  readonly #high: number[][];
  readonly #starts: { readonly block: number; readonly row: number }[] = [];
  #rows = 0;
  /** Samples in the last block. */
  #held = 0;

  /** @param channels how many they are  @param stride samples a block */
  constructor(channels: number, stride: number) {
    this.#stride = stride;
    this.#low = Array.from({ length: channels }, () => []);
    this.#high = Array.from({ length: channels }, () => []);
  }

  /** Adds the next samples of every channel. @param goesOn whether they come straight after those before */
  add(channels: readonly Float64Array[], goesOn: boolean): void {
    if (!goesOn) {
      this.#starts.push({ block: this.#low[0]?.length ?? 0, row: this.#rows });
      this.#held = 0;
    }
    const length = channels[0]?.length ?? 0;
    this.#rows += length;
    for (let from = 0, to = 0; from < length; from = to) {
      to = Math.min(length, from + this.#stride - (this.#held % this.#stride));
      const isNew = this.#held % this.#stride === 0;
      channels.forEach((samples, k) => this.#take(k, samples.subarray(from, to), isNew));
      this.#held += to - from;
    }
  }

  #take(k: number, samples: Float64Array, isNew: boolean): void {
    const [low, high] = [this.#low[k], this.#high[k]];
    let least = isNew ? Infinity : low.pop()!;
    let most = isNew ? -Infinity : high.pop()!;
    for (let i = 0; i < samples.length; i++) {
      if (samples[i] < least) least = samples[i];
      if (samples[i] > most) most = samples[i];
    }
    low.push(least);
    high.push(most);
  }

  /** The outline of a channel. */
  of(k: number): Outline {
    return {
      stride: this.#stride,
      low: Float64Array.from(this.#low[k]),
      high: Float64Array.from(this.#high[k]),
      starts: this.#starts,
    };
  }
}
