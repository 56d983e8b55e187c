import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { bundlesOf } from '../../scripts/build/bundles.mjs';
import { python } from './reference.ts';
import { medianOf, type Row } from './row.ts';
import { writeStudy } from './studyFiles.ts';

/** What one run of a study took: ms on the wall and of processor time, and MiB at the peak. */
interface Taken {
  readonly wall: number;
  readonly cpu: number;
  readonly peak: number;
  /** Change of the first band, by which both are held to the same answer. */
  readonly change: number;
}

const rounds = 3;

/**
 * The whole study of generated recordings, of 100 unless said, as a user runs it: a fresh process of the bundled command
 * line beside a plain script of pandas and scipy with as many processes, in turn.
 */
export async function rows(_: unknown, [given = '100']: readonly string[] = []): Promise<Row[]> {
  const runs = Number(given);
  const folder = mkdtempSync(join(tmpdir(), 'washboard-study-'));
  try {
    const notebook = writeStudy(folder, runs);
    const program = await bundled(folder);
    const processes = availableParallelism();
    const cache = join(folder, 'cache');
    const contestants = {
      // Nothing is kept the first time, and the second takes what the first has kept.
      ours: () => (rmSync(cache, { recursive: true, force: true }), ours(program, notebook, cache)),
      again: () => ours(program, notebook, cache),
      theirs: () => theirs(folder, processes),
    };
    const found = { ours: [] as Taken[], again: [] as Taken[], theirs: [] as Taken[] };
    for (let round = 0; round < rounds; round++)
      for (const name of ['ours', 'again', 'theirs'] as const) found[name].push(contestants[name]());
    if (Math.abs(found.ours[0].change - found.theirs[0].change) > 1e-3) throw new Error('the two do not agree');
    const of = (name: keyof typeof found, key: keyof Taken): number => medianOf(found[name].map((one) => one[key]));
    const row = (what: string, name: keyof typeof found, key: keyof Taken): Row => ({
      what: `study of ${runs} recordings, ${what}`,
      ours: of(name, key),
      reference: { name: 'script', median: of('theirs', key) },
      note: `${(of(name, key) / runs).toFixed(2)} ms a run; peak ${of(name, 'peak').toFixed(0)} MiB, script ${of('theirs', 'peak').toFixed(0)}`,
    });
    return [
      row('cold, wall', 'ours', 'wall'),
      row('cold, processor', 'ours', 'cpu'),
      row('again, wall', 'again', 'wall'),
      row('again, processor', 'again', 'cpu'),
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The command line as it is packed, in a folder of its own. */
async function bundled(folder: string): Promise<string> {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  for (const bundle of bundlesOf({ root, version: 'bench' }))
    if (bundle.outdir !== undefined) await build({ ...bundle, outdir: folder });
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

function ours(program: string, notebook: string, cache: string): Taken {
  const hook = join(program, '..', 'usage.cjs');
  const began = performance.now();
  const { stdout, stderr } = spawnSync(process.execPath, ['-r', hook, program, 'run', notebook, '--json'], {
    encoding: 'utf8',
    maxBuffer: 1 << 30,
    env: { ...process.env, XDG_CACHE_HOME: cache },
  });
  const wall = performance.now() - began;
  const usage = JSON.parse(stderr.trim().split('\n').at(-1) ?? '') as { cpu: number; peak: number };
  const { cells } = JSON.parse(stdout) as {
    cells: { statements: { value: { rows: { change_percent: number }[] } }[] }[];
  };
  return { ...usage, wall, change: cells[0].statements[2].value.rows[0].change_percent / 100 };
}

function theirs(folder: string, processes: number): Taken {
  const script = fileURLToPath(new URL('study.py', import.meta.url));
  const began = performance.now();
  const told = execFileSync(python, [script, folder, String(processes)], { encoding: 'utf8' });
  const wall = performance.now() - began;
  const { changes, cpu, peak } = JSON.parse(told) as { changes: number[]; cpu: number; peak: number };
  return { wall, cpu, peak, change: changes[0] };
}
