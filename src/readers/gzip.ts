import type { Refused } from '../result/result.ts';
import { limits, unfoldsTooFar } from './limits.ts';
import { refuse } from './messages.ts';
import type { Pieces } from './pieces.ts';

/** Whether bytes begin a gzip file. */
export const isGzip = (head: Uint8Array): boolean => head[0] === 0x1f && head[1] === 0x8b;

/** The pieces unpacked from gzip. Fails where they are damaged, or grow beyond the limits. */
export function unzipped(path: string, packed: Pieces): Pieces {
  const stream = new DecompressionStream('gzip');
  const writer = stream.writable.getWriter();
  const reader = stream.readable.getReader();
  let taken = 0;
  let expanded = 0;
  let isDamaged = false;
  let failure: Refused | undefined;
  const feed = async (): Promise<void> => {
    for (let piece = await packed.next(); piece; piece = await packed.next())
      for (let at = 0; at < piece.length; at += limits.packed) {
        const part = piece.slice(at, at + limits.packed);
        taken += part.length;
        await writer.write(part);
      }
    if (packed.failure()) await writer.abort();
    else await writer.close();
  };
  const fed = feed().catch(() => {
    isDamaged = true;
  });
  const unpack = async (): Promise<Uint8Array | undefined> => {
    const { done, value } = await reader.read();
    if (!done && value) return value;
    await fed;
    return undefined;
  };
  return {
    async next() {
      if (failure) return undefined;
      const piece = await unpack().catch(() => {
        isDamaged = true;
        return undefined;
      });
      expanded += piece?.length ?? 0;
      failure =
        packed.failure() ?? (isDamaged && !piece ? refuse('damaged-gzip', { path }) : tooFar(path, expanded, taken));
      return failure ? undefined : piece;
    },
    failure: () => failure,
    progress: () => packed.progress(),
    async close() {
      await reader.cancel().catch(() => undefined);
      await fed;
      await packed.close();
    },
  };
}

function tooFar(path: string, expanded: number, packed: number): Refused | undefined {
  if (!unfoldsTooFar(expanded, packed)) return undefined;
  return refuse('expands-too-far', { path, expanded, factor: expanded / Math.max(packed, 1) });
}
