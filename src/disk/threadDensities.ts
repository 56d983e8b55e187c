import type { Density } from '../signal/welch.ts';
import type { Files, WantedDensity } from '../values/ports.ts';
import type { ReadingThreads } from './readingThreads.ts';

/** Makes densities in threads; none of what fails there or is no longer wanted. */
export function densitiesIn(threads: ReadingThreads): NonNullable<Files['densities']> {
  return async (wanted, watch) => {
    const found = wanted.map((): Density | undefined => undefined);
    let next = 0;
    const take = async (): Promise<void> => {
      const shared = new SharedSamples();
      while (next < wanted.length && !watch.cancelled()) {
        const at = next++;
        found[at] = await threads.density(shared.of(wanted[at])).catch(() => undefined);
      }
    };
    // One more for each thread waits, so that none does.
    await Promise.all(Array.from({ length: 2 * threads.count }, take));
    return found;
  };
}

/** Memory that threads see without a copy of their own, for one density after another: copies would wait to be collected. */
class SharedSamples {
  #room = new SharedArrayBuffer(0);

  /** The same signal in this memory, which holds it until the next is asked for. */
  of({ pieces, options }: WantedDensity): WantedDensity {
    const bytes = pieces.reduce((sum, piece) => sum + piece.byteLength, 0);
    if (this.#room.byteLength < bytes) this.#room = new SharedArrayBuffer(bytes);
    let at = 0;
    const shared = pieces.map((piece) => {
      const copy = new Float64Array(this.#room, at, piece.length);
      copy.set(piece);
      at += piece.byteLength;
      return copy;
    });
    return { pieces: shared, options };
  }
}
