import type { Watch } from '../values/ports.ts';

/** Progress on a terminal's standard error, for work of more than a moment; nothing anywhere else. */
export function terminalWatch(): Watch & { done(): void } {
  const terminal = process.stderr.isTTY;
  const began = Date.now();
  let last = 0;
  let written = false;
  return {
    cancelled: () => false,
    progress(fraction, what) {
      const now = Date.now();
      if (!terminal || now - began < 500 || now - last < 100) return;
      last = now;
      written = true;
      process.stderr.write(`\r\u001b[K${what}, ${Math.round(fraction * 100)} %`);
    },
    done() {
      if (written) process.stderr.write('\r\u001b[K');
    },
  };
}
