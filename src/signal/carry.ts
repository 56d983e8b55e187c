/** Samples that come block by block, of which some wait for those that follow. */
export class Carry {
  #room = new Float64Array(0);
  #held: Float64Array = this.#room;

  /** What waits. */
  get held(): Float64Array {
    return this.#held;
  }

  /** What waits with a block behind it: a view that holds until the next call. */
  add(block: Float64Array): Float64Array {
    const { length } = this.#held;
    if (length === 0) return (this.#held = block);
    const wanted = length + block.length;
    // What waits stands at the front of the room, or in a block of somebody else's.
    if (this.#room.length < wanted) {
      const larger = new Float64Array(Math.ceil(1.25 * wanted));
      larger.set(this.#held);
      this.#room = larger;
    } else if (this.#held.buffer !== this.#room.buffer) this.#room.set(this.#held);
    this.#room.set(block, length);
    return (this.#held = this.#room.subarray(0, wanted));
  }

  /** Lets go of what comes before `from`; the rest is copied, so that its block may be used again. */
  keep(from: number): void {
    const rest = this.#held.subarray(Math.min(from, this.#held.length));
    if (this.#room.length < rest.length) this.#room = new Float64Array(Math.ceil(1.25 * rest.length));
    // Within one array as well, where they overlap.
    this.#room.set(rest);
    this.#held = this.#room.subarray(0, rest.length);
  }
}
