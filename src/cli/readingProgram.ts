import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Absolute path of the program of a thread that reads, which lies beside this one; where sources are run as they are, there is none. */
export function readingProgram(): string | undefined {
  const script = fileURLToPath(new URL('./reading.cjs', import.meta.url));
  return existsSync(script) ? script : undefined;
}
