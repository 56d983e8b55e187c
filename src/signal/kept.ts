/** Keeps what was made for the lengths used last, while all of it together stays within a size. */
export class Kept<Made> {
  readonly #make: (length: number) => Made;
  readonly #sizeOf: (made: Made) => number;
  readonly #most: number;
  /** The one used last stands last. */
  readonly #made = new Map<number, Made>();

  /**
   * @param make what is kept, for a length
   * @param sizeOf its size, in the unit of `most`
   * @param most size of all that is kept; what is larger by itself is not kept, and drives nothing out
   */
  constructor(make: (length: number) => Made, sizeOf: (made: Made) => number, most: number) {
    this.#make = make;
    this.#sizeOf = sizeOf;
    this.#most = most;
  }

  /** What is kept for a length, or else is made now. */
  of(length: number): Made {
    const isKept = this.#made.has(length);
    const made = isKept ? this.#made.get(length)! : this.#make(length);
    if (isKept) this.#made.delete(length);
    else if (this.#sizeOf(made) > this.#most) return made;
    this.#made.set(length, made);
    let size = 0;
    for (const one of this.#made.values()) size += this.#sizeOf(one);
    for (const [other, one] of this.#made) {
      if (size <= this.#most) break;
      this.#made.delete(other);
      size -= this.#sizeOf(one);
    }
    return made;
  }
}
