import type { Pieces } from '../pieces.ts';

/** Says where bytes may be cut: how many of a piece's come before its last cut, or 0. @param at bytes before the piece */
export type CutIn = (piece: Uint8Array, at: number) => number;

/** Pieces of a part, and where the part begins. */
export interface CutPart {
  readonly from: number;
  readonly pieces: Pieces;
}

/** Cuts a stream of bytes into parts, each of about a size and ending where it may be cut. */
export class Cutting {
  readonly #pieces: Pieces;
  readonly #cutIn: CutIn;
  readonly #size: number;
  readonly #end: number;
  #rest: Uint8Array | undefined;
  #isOver = false;
  #at: number;

  /** @param span where the bytes begin and end in the file  @param size of a part in bytes */
  constructor(pieces: Pieces, span: { readonly from: number; readonly to: number }, cutIn: CutIn, size: number) {
    this.#pieces = pieces;
    this.#cutIn = cutIn;
    this.#size = Math.floor(size);
    this.#at = span.from;
    this.#end = span.to;
  }

  /** Where the part ends that was read last. */
  get at(): number {
    return this.#at;
  }

  /** The bytes behind the span, once all parts were read. */
  behind(): Pieces {
    const next: Pieces['next'] = () => {
      const rest = this.#rest;
      this.#rest = undefined;
      return rest === undefined ? this.#pieces.next() : Promise.resolve(rest);
    };
    return { ...this.#pieces, next };
  }

  /** The next part, to be read to its end before the one after it is asked for. */
  next(): CutPart | undefined {
    if (this.#isOver || this.#at >= this.#end) return undefined;
    const from = this.#at;
    let isCut = false;
    const next = async (): Promise<Uint8Array | undefined> => {
      if (isCut) return undefined;
      const begin = this.#at;
      const left = this.#end - begin;
      const piece = left > 0 ? (this.#rest ?? (await this.#pieces.next())) : undefined;
      if (piece === undefined) {
        this.#isOver = true;
        return undefined;
      }
      this.#rest = undefined;
      const own = piece.subarray(0, left);
      const stop = Math.min(begin + own.length, from + this.#size);
      // What would be left for a part of its own must be worth one.
      const isFull = stop - from >= this.#size && this.#end - stop >= this.#size / 2;
      const cut = isFull ? this.#cutIn(own.subarray(0, stop - begin), begin) || this.#cutIn(own, begin) : 0;
      isCut = cut > 0;
      const taken = isCut ? cut : own.length;
      this.#at = begin + taken;
      // The piece may be reused by the next call.
      if (taken < piece.length) this.#rest = piece.slice(taken);
      return piece.subarray(0, taken);
    };
    return { from, pieces: { ...this.#pieces, next, close: () => Promise.resolve() } };
  }
}
