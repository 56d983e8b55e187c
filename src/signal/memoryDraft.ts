/** Drafts the memory of a compiled loop: where what stands, before there is the memory. Places are in bytes. */
export class MemoryDraft {
  #bytes = 1024;
  readonly #written: ((memory: ArrayBuffer) => void)[] = [];

  /** Bytes in all. */
  get bytes(): number {
    return this.#bytes;
  }

  /** Room for so many numbers of 8 bytes. */
  room(count: number): number {
    return this.#take(8 * count);
  }

  /** Numbers of 8 bytes that are there from the start. */
  numbers(values: Float64Array): number {
    const at = this.room(values.length);
    this.#written.push((memory) => new Float64Array(memory, at, values.length).set(values));
    return at;
  }

  /** Whole numbers of 4 bytes that are there from the start. */
  words(values: readonly number[]): number {
    const at = this.#take(4 * values.length);
    this.#written.push((memory) => new Int32Array(memory, at, values.length).set(values));
    return at;
  }

  /** Writes what is there from the start into a memory of zeros. */
  writeTo(memory: ArrayBuffer): void {
    for (const write of this.#written) write(memory);
  }

  #take(bytes: number): number {
    const at = this.#bytes;
    // A little apart, so that the arrays do not begin at the same place of their memory pages (see `scratchArrays`).
    this.#bytes += Math.ceil(bytes / 16) * 16 + 256;
    return at;
  }
}
