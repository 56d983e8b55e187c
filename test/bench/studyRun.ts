import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { bundlesOf } from '../../scripts/build/bundles.mjs';

/** What one run of a study took: ms on the wall and of processor time, and MiB at the peak. */
export interface Taken {
  readonly wall: number;
  readonly cpu: number;
  readonly peak: number;
  /** Change of the first band, by which two programs are held to the same answer. */
  readonly change: number;
}

/** The command line as it is packed, in a folder of its own. */
export async function bundled(folder: string): Promise<string> {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  for (const bundle of bundlesOf({ root, version: 'bench' }))
    if (bundle.outdir !== undefined) await build({ ...bundle, outdir: folder });
    // Without the program of its threads the command line would read all by itself.
    else if (bundle.outfile === 'dist/reading.cjs') await build({ ...bundle, outfile: join(folder, 'reading.cjs') });
  // Told on the way out, since it is asked of the process itself.
  writeFileSync(
    join(folder, 'usage.cjs'),
    `if (require('node:worker_threads').isMainThread) process.on('exit', () => {
      const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
      process.stderr.write('\\n' + JSON.stringify({ cpu: (userCPUTime + systemCPUTime) / 1000, peak: maxRSS / 1024 }));
    });`,
  );
  return join(folder, 'washboard.mjs');
}

/** A run of a study by a fresh process. @param cache where results are kept @param options of `run` */
export function studyRun(program: string, notebook: string, cache: string, options: readonly string[] = []): Taken {
  const { stdout, ...taken } = freshRun(program, notebook, cache, options);
  const { cells } = JSON.parse(stdout) as {
    cells: { statements: { value: { rows: { change_percent: number }[] } }[] }[];
  };
  return { ...taken, change: cells[0].statements[2].value.rows[0].change_percent / 100 };
}

/** What a run of a notebook by a fresh process took, and its results as JSON. Arguments as of `studyRun`. */
export function freshRun(
  program: string,
  notebook: string,
  cache: string,
  options: readonly string[] = [],
): Omit<Taken, 'change'> & { readonly stdout: string } {
  const hook = join(program, '..', 'usage.cjs');
  const began = performance.now();
  const { stdout, stderr } = spawnSync(process.execPath, ['-r', hook, program, 'run', notebook, '--json', ...options], {
    encoding: 'utf8',
    maxBuffer: 1 << 30,
    // Certificates that a network adds are read at each start of Node, which takes 30 to 45 ms of its own.
    env: { ...process.env, NODE_EXTRA_CA_CERTS: undefined, XDG_CACHE_HOME: cache },
  });
  const wall = performance.now() - began;
  const usage = JSON.parse(stderr.trim().split('\n').at(-1) ?? '') as { cpu: number; peak: number };
  return { ...usage, wall, stdout };
}
