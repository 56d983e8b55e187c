import type { Refused } from '../../result/result.ts';
import { limits } from '../limits.ts';
import { refuse } from '../messages.ts';
import type { Pieces } from '../pieces.ts';
import type { ReadWatch } from '../recording.ts';
import type { HeldText } from './heldText.ts';
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
  /** Takes rows, of which the other thread has read some or none. */
  take(rows: WaitingRows, scanned: Scanned | undefined): Refused | undefined;
}

/**
 * Reads pieces with another thread, in the order and with the result of reading them alone, until there are no more or one is
 * left that does not fit: it is then among what is held.
 */
export async function readWithOther(
  beside: RowsBeside,
  pieces: Pieces,
  watch: ReadWatch,
  body: TakesRows,
): Promise<Refused | undefined> {
  const { path, held } = body;
  const waiting: (WaitingRows & { readonly slot: number })[] = [];
  let isOver = false;
  while (!isOver || waiting.length > 0) {
    for (let slot = beside.free(); slot !== undefined && !isOver; slot = beside.free()) {
      const piece = await pieces.next();
      if (watch.cancelled()) return refuse('cancelled', { path });
      if (piece === undefined) isOver = true;
      else {
        const rows = placed(held, piece, beside.bytesOf(slot), pieces.progress());
        if (rows !== undefined) {
          beside.post(slot, rows.end);
          waiting.push({ ...rows, slot });
        }
        watch.progress(pieces.progress());
        isOver = held.length > limits.line;
      }
    }
    const next = waiting.shift();
    if (next === undefined) break;
    const refused = body.take(next, beside.taken(next.slot));
    if (refused) return refused;
    beside.release(next.slot);
  }
  return undefined;
}

/** Puts what is held and a piece into a place, and holds what does not end a line; all of it where there is no line's end or no room. */
function placed(held: HeldText, piece: Uint8Array, place: Uint8Array, fraction: number): WaitingRows | undefined {
  held.append(piece);
  const end = held.lastLineEnd();
  // The byte behind the last is looked at, too.
  if (end === 0 || end >= place.length) return undefined;
  place.set(held.bytes.subarray(0, end));
  held.drop(end);
  return { bytes: place, end, fraction };
}
