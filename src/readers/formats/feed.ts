import type { Pieces } from '../pieces.ts';

const decoder = new TextDecoder('windows-1252');

/** Bytes taken from pieces in whatever lengths are asked for, or line by line. */
export class Feed {
  private readonly pieces: Pieces;
  private rest = new Uint8Array(0);
  /** Where what is left of a piece stands. */
  private own = new Uint8Array(0);

  constructor(pieces: Pieces) {
    this.pieces = pieces;
  }

  /** Exactly `length` bytes, as a copy, or fewer where the pieces end. @param room for so many, where the copy goes */
  async take(length: number, room = new Uint8Array(length)): Promise<Uint8Array> {
    const bytes = room.subarray(0, length);
    let filled = 0;
    while (filled < length && (await this.fill())) {
      const some = this.rest.subarray(0, length - filled);
      bytes.set(some, filled);
      filled += some.length;
      this.rest = this.rest.subarray(some.length);
    }
    return bytes.subarray(0, filled);
  }

  /** As `take`, of few bytes, which the next to ask is given all the same. */
  async peek(length: number): Promise<Uint8Array> {
    const bytes = await this.take(length);
    const rest = new Uint8Array(bytes.length + this.rest.length);
    rest.set(bytes);
    rest.set(this.rest, bytes.length);
    this.rest = rest;
    return bytes;
  }

  /** Passes over bytes without keeping them. @returns how many there were */
  async pass(length: number): Promise<number> {
    let passed = 0;
    while (passed < length && (await this.fill())) {
      const some = Math.min(length - passed, this.rest.length);
      this.rest = this.rest.subarray(some);
      passed += some;
    }
    return passed;
  }

  /** The next line without its end, one byte a character; undefined where the pieces end or no line is so long. */
  async line(longest: number): Promise<string | undefined> {
    let text: string | undefined;
    while (await this.fill()) {
      const end = this.rest.indexOf(10);
      text = (text ?? '') + decoder.decode(end < 0 ? this.rest : this.rest.subarray(0, end));
      this.rest = end < 0 ? this.rest.subarray(this.rest.length) : this.rest.subarray(end + 1);
      if (end >= 0) break;
      if (text.length > longest) return undefined;
    }
    return text?.replace(/\r$/, '');
  }

  /** Takes the next piece where nothing is left of the one before; false where there is none. */
  private async fill(): Promise<boolean> {
    while (this.rest.length === 0) {
      const piece = await this.pieces.next();
      if (!piece) return false;
      if (this.own.length < piece.length) this.own = new Uint8Array(piece.length);
      this.own.set(piece);
      this.rest = this.own.subarray(0, piece.length);
    }
    return true;
  }
}
