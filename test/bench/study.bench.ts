import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { python } from './reference.ts';
import { medianOf, type Row } from './row.ts';
import { writeStudy } from './studyFiles.ts';
import { bundled, studyRun, type Taken } from './studyRun.ts';

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
      ours: () => (rmSync(cache, { recursive: true, force: true }), studyRun(program, notebook, cache)),
      again: () => studyRun(program, notebook, cache),
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

function theirs(folder: string, processes: number): Taken {
  const script = fileURLToPath(new URL('study.py', import.meta.url));
  const began = performance.now();
  const told = execFileSync(python, [script, folder, String(processes)], { encoding: 'utf8' });
  const wall = performance.now() - began;
  const { changes, cpu, peak } = JSON.parse(told) as { changes: number[]; cpu: number; peak: number };
  return { wall, cpu, peak, change: changes[0] };
}
