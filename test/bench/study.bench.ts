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

const rounds = 5;
/** The command line and what it starts. */
const programs = ['washboard.cjs', 'worker.cjs'];

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
    const contestants = {
      ours: () => ours(program, notebook),
      theirs: () => theirs(folder, processes),
    };
    const found = { ours: [] as Taken[], theirs: [] as Taken[] };
    for (let round = 0; round < rounds; round++)
      for (const name of ['ours', 'theirs'] as const) found[name].push(contestants[name]());
    if (Math.abs(found.ours[0].change - found.theirs[0].change) > 1e-3) throw new Error('the two do not agree');
    const of = (name: keyof typeof found, key: keyof Taken): number => medianOf(found[name].map((one) => one[key]));
    const row = (what: string, name: keyof typeof found, key: keyof Taken): Row => ({
      what: `study of ${runs} recordings, ${what}`,
      ours: of(name, key),
      reference: { name: 'script', median: of('theirs', key) },
      note: `${(of(name, key) / runs).toFixed(2)} ms a run; peak ${of(name, 'peak').toFixed(0)} MiB, script ${of('theirs', 'peak').toFixed(0)}`,
    });
    return [row('wall', 'ours', 'wall'), row('processor', 'ours', 'cpu')];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The command line as it is packed, in a folder of its own. */
async function bundled(folder: string): Promise<string> {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  for (const bundle of bundlesOf({ root, version: 'bench' })) {
    const file = bundle.outfile?.replace('dist/', '') ?? '';
    if (programs.includes(file)) await build({ ...bundle, outfile: join(folder, file) });
  }
  // Told on the way out, since it is asked of the process itself.
  writeFileSync(
    join(folder, 'usage.cjs'),
    `process.on('exit', () => {
      const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
      process.stderr.write('\\n' + JSON.stringify({ cpu: (userCPUTime + systemCPUTime) / 1000, peak: maxRSS / 1024 }));
    });`,
  );
  return join(folder, 'washboard.cjs');
}

function ours(program: string, notebook: string): Taken {
  const hook = join(program, '..', 'usage.cjs');
  const began = performance.now();
  const { stdout, stderr } = spawnSync(process.execPath, ['-r', hook, program, 'run', notebook, '--json'], {
    encoding: 'utf8',
    maxBuffer: 1 << 30,
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
