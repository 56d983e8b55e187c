/** Bytes of a text that were taken and not read yet. */
export class HeldText {
  /** The first `length` of them are held. */
  bytes: Uint8Array;
  length = 0;
  /** Whether zeros at the end were left out. */
  hasZerosAtEnd = false;
  readonly #lineEnd: number;
  readonly #quoted: boolean;

  /** @param bytes work space to begin with  @param lineEnd the byte that ends a line  @param quoted whether lines may end within quotes */
  constructor(bytes: Uint8Array, lineEnd: number, quoted: boolean) {
    [this.bytes, this.#lineEnd, this.#quoted] = [bytes, lineEnd, quoted];
  }

  append(piece: Uint8Array): void {
    // One byte stays free so that a scan may look past the last line's end.
    if (this.bytes.length < this.length + piece.length + 1) {
      const larger = new Uint8Array(2 * (this.length + piece.length));
      larger.set(this.bytes.subarray(0, this.length));
      this.bytes = larger;
    }
    this.bytes.set(piece, this.length);
    this.length += piece.length;
    // One zero stays to part what stands before and after a block of them.
    this.trimZeros(1);
  }

  /** Leaves out all but some of the zeros at the end of what is held: loggers that lose power leave such behind. */
  trimZeros(keep: number): void {
    const { bytes, length } = this;
    const isZero = (at: number): boolean => at >= 0 && (bytes[at] === 0 || bytes[at] === 26);
    while (isZero(this.length - 1) && (keep === 0 || isZero(this.length - 2))) this.length--;
    if (keep === 0 && this.length < length) this.hasZerosAtEnd = true;
  }

  /** One past the last byte that ends a line outside of quotes. */
  lastLineEnd(): number {
    if (!this.#quoted) return this.bytes.subarray(0, this.length).lastIndexOf(this.#lineEnd) + 1;
    let open = false;
    let end = 0;
    for (let i = 0; i < this.length; i++) {
      if (this.bytes[i] === 34) open = !open;
      else if (!open && this.bytes[i] === this.#lineEnd) end = i + 1;
    }
    return end;
  }

  /** Moves what comes after a byte to the front. */
  drop(end: number): void {
    this.bytes.copyWithin(0, end, this.length);
    this.length -= end;
  }
}
