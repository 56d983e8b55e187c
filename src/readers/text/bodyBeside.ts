import type { Refused } from '../../result/result.ts';
import { limits } from '../limits.ts';
import { refuse } from '../messages.ts';
import type { Pieces } from '../pieces.ts';
import type { ReadWatch } from '../recording.ts';
import type { HeldText } from './heldText.ts';
import { zerosBehind } from './rowsInPlace.ts';
import type { RowsBeside, Scanned } from './rowsBeside.ts';

/** Whole rows of a text, in its order. */
export interface WaitingRows {
  readonly bytes: Uint8Array;
  /** Where the last of them ends, and the share of the file that was taken by then. */
  readonly end: number;
  readonly fraction: number;
}

/** What takes the rows of a text one piece after another. */
export interface TakesRows {
  readonly path: string;
  /** What is left of the pieces that were taken. */
  readonly held: HeldText;
  /** Takes rows, of which the other thread has read some or none; they are no more than there are lines. */
  take(rows: WaitingRows, scanned: Scanned | undefined): Refused | undefined;
  /** Goes on in memory of its own. */
  leaveShared(): void;
}

/** Rows that were handed out, and their place. */
type PostedRows = WaitingRows & { readonly slot: number };

/** A piece that is being read. */
interface ComingPiece {
  readonly slot: number;
  readonly piece: Promise<Uint8Array | undefined>;
}

/**
 * Reads pieces with another thread, in the order and with the result of reading them alone, until there are no more or one is
 * left that does not fit: it is then among what is held. Lets the other thread go.
 */
export async function readWithOther(
  beside: RowsBeside,
  pieces: Pieces,
  watch: ReadWatch,
  body: TakesRows,
): Promise<Refused | undefined> {
  const handing = new Handing(beside, pieces, watch, body.held);
  try {
    for (handing.begin(); handing.coming !== undefined || handing.waiting.length > 0; handing.begin()) {
      if (watch.cancelled()) return refuse('cancelled', { path: body.path });
      const next = handing.waiting.at(0);
      const isNextRead = next !== undefined && beside.isRead(next.slot);
      if (!isNextRead && handing.coming !== undefined) await handing.goOn();
      else if (isNextRead || !beside.readOne()) {
        const refused = take(beside, handing, body);
        if (refused) return refused;
      }
    }
    return undefined;
  } finally {
    await handing.coming?.piece.catch(() => undefined);
    beside.stop();
  }
}

/** Takes the rows that come next in the file's order; waits for the other thread if it has begun them. */
function take(beside: RowsBeside, handing: Handing, body: TakesRows): Refused | undefined {
  const next = handing.waiting.shift()!;
  const scanned = beside.taken(next.slot);
  if (beside.isLost) {
    body.leaveShared();
    handing.isOver = true;
  }
  const refused = body.take(next, scanned);
  beside.release(next.slot);
  return refused;
}

/** Hands pieces of a text out as they come. */
class Handing {
  readonly waiting: PostedRows[] = [];
  coming: ComingPiece | undefined;
  /** Whether no more are handed out. */
  isOver = false;
  readonly #beside: RowsBeside;
  readonly #pieces: Pieces;
  readonly #watch: ReadWatch;
  readonly #held: HeldText;

  constructor(beside: RowsBeside, pieces: Pieces, watch: ReadWatch, held: HeldText) {
    [this.#beside, this.#pieces, this.#watch, this.#held] = [beside, pieces, watch, held];
  }

  /** Begins to read a piece, where one is wanted and there is a place for it. */
  begin(): void {
    const slot = this.isOver || this.coming !== undefined ? undefined : this.#beside.free();
    if (slot === undefined) return;
    // What is left of the piece before goes in front of it.
    const place = this.#beside.bytesOf(slot).subarray(limits.line, limits.line + limits.piece);
    this.coming = { slot, piece: this.#pieces.next(place) };
  }

  /** Hands the piece out that is coming. */
  async goOn(): Promise<void> {
    if (this.coming === undefined) return;
    const { slot, piece } = this.coming;
    const bytes = await piece;
    this.coming = undefined;
    if (bytes === undefined) this.isOver = true;
    else this.#handOut(slot, bytes);
    this.#watch.progress(this.#pieces.progress());
  }

  #handOut(slot: number, piece: Uint8Array): void {
    const held = this.#held;
    // A piece may have come by the way while all was given up.
    const rows = this.isOver ? undefined : this.#placed(slot, piece);
    if (rows === undefined) held.append(piece);
    else this.waiting.push(rows);
    // Zeros that a loss of power left are seen to by one thread alone.
    this.isOver ||= held.length > limits.line || (rows === undefined && isZero(piece[piece.length - 1]));
  }

  /** Puts a piece behind what is held, which becomes what follows its last line; undefined where there is no such line or no room for its rows. */
  #placed(slot: number, piece: Uint8Array): PostedRows | undefined {
    const held = this.#held;
    const whole = this.#beside.bytesOf(slot);
    const from = limits.line - held.length;
    if (from < 0 || piece.length > limits.piece || isZero(piece[piece.length - 1])) return undefined;
    if (piece.buffer !== whole.buffer) whole.set(piece, limits.line);
    const lines = piece.lastIndexOf(10) + 1;
    if (lines === 0) return undefined;
    whole.set(held.bytes.subarray(0, held.length), from);
    const end = limits.line + lines - from;
    const rest = piece.slice(lines);
    const bytes = whole.subarray(from);
    bytes.fill(0, end, end + zerosBehind);
    if (!this.#beside.post(slot, from, end)) {
      bytes.set(rest, end);
      this.isOver = true;
      return undefined;
    }
    held.drop(held.length);
    held.append(rest);
    return { bytes, end, fraction: this.#pieces.progress(), slot };
  }
}

const isZero = (byte: number): boolean => byte === 0 || byte === 26;
