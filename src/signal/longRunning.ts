import { Carry } from './carry.ts';
import { runningRms } from './running.ts';

/** Receives values of a running r.m.s. @param first index in the stretch of the sample with which the first of them ends */
export type TakeRunning = (values: Float64Array, first: number) => void;

/** Running r.m.s. of a stretch that comes block by block: the same values as `runningRms` gives of all of it. */
export class LongRunning {
  readonly #carry = new Carry();
  readonly #length: number;
  readonly #mean: number;
  readonly #take: TakeRunning;
  /** Values given so far. */
  #given = 0;

  /** @param length samples a span, at least 1  @param mean what is taken from each sample first */
  constructor(length: number, mean: number, take: TakeRunning) {
    this.#length = length;
    this.#mean = mean;
    this.#take = take;
  }

  /** Adds the next samples of the stretch. */
  add(block: Float64Array): void {
    const samples = this.#carry.add(block);
    const length = this.#length;
    // Sums are built up afresh every span from the beginning of the stretch on.
    const whole = Math.floor((samples.length - length + 1) / length) * length;
    if (whole > 0) this.#give(samples.subarray(0, whole + length - 1));
    this.#carry.keep(Math.max(0, whole));
  }

  /** Ends the stretch: what comes next is another. */
  end(): void {
    const rest = this.#carry.held;
    if (rest.length >= this.#length) this.#give(rest);
    this.#carry.keep(rest.length);
    this.#given = 0;
  }

  #give(samples: Float64Array): void {
    const { values } = runningRms(samples, this.#length, this.#mean);
    this.#take(values, this.#given + this.#length - 1);
    this.#given += values.length;
  }
}
