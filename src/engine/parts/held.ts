import { sampleBuffers } from '../../values/away.ts';
import { runsIn, type Part } from './part.ts';

/** Bytes of samples that stay beside a recording that is read; those of the last one that is to be drawn stay whatever their size. */
const roomBeside = 64e6;

/**
 * What recordings gave, with samples that charts are going to draw: held from their reading to the end of a run of the
 * notebook, so that they need not be read again, for as long as there is room.
 */
export class HeldForCharts {
  readonly #parts = new Map<string, Part>();

  get(key: string): Part | undefined {
    return this.#parts.get(key);
  }

  hold(key: string, part: Part): void {
    this.#parts.set(key, part);
  }

  /** Lets those go, the oldest first, that have no room beside a recording that was read just now. */
  makeRoom(read: Part): void {
    for (const key of this.#parts.keys()) {
      if (bytesIn([...this.#parts.values(), read]) <= roomBeside) return;
      this.#parts.delete(key);
    }
  }
}

/** Bytes of the samples of all parts, those counted once that several share. */
function bytesIn(parts: readonly Part[]): number {
  const buffers = new Set(parts.flatMap((part) => runsIn(part).flatMap(sampleBuffers)));
  return [...buffers].reduce((sum, { byteLength }) => sum + byteLength, 0);
}
