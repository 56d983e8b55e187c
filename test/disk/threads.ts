import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** The program of a reading thread as it is packed, in a folder of its own for temporary files; gives its path. */
export async function readingProgram(): Promise<string> {
  const outfile = join(mkdtempSync(join(tmpdir(), 'washboard-threads-')), 'reading.mjs');
  const entry = fileURLToPath(new URL('../../src/disk/readingThread.ts', import.meta.url));
  const banner = {
    js: "import { createRequire as requireOf } from 'node:module';\nconst require = requireOf(import.meta.url);",
  };
  await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'error',
    banner,
  });
  return outfile;
}
