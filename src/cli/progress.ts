import type { Watch } from '../values/ports.ts';
import { isWatched, overwrite } from './terminal.ts';

/** Progress on a terminal's standard error, for work of more than a moment; nothing anywhere else. */
export function terminalWatch(): Watch & { done(): void } {
  const watched = isWatched();
  const began = Date.now();
  let last = 0;
  let written = false;
  return {
    cancelled: () => false,
    progress(fraction, what) {
      const now = Date.now();
      if (!watched || now - began < 500 || now - last < 100) return;
      last = now;
      written = true;
      overwrite(`${what}, ${Math.round(fraction * 100)} %`);
    },
    done() {
      if (written) overwrite('');
    },
  };
}
