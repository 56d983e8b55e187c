import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { Row } from './row.ts';
import { writeStudy } from './studyFiles.ts';
import { bundled, studyRun, type Taken } from './studyRun.ts';

/** Rows of a recording: 10 s of 3 axes. */
const rowsEach = 3500;

/**
 * One study over more and more small recordings, of up to 1,000 unless said, by one thread of a fresh process: time and memory
 * a run, which must not grow with their number. What 10 of them take goes off each, being mostly the start of the program.
 */
export async function rows(_: unknown, [given = '1000']: readonly string[] = []): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'washboard-growth-'));
  try {
    const program = await bundled(folder);
    const taken = async (runs: number): Promise<{ runs: number; cold: Taken; again: Taken }> => {
      const own = join(folder, String(runs));
      const notebook = writeStudy(own, runs, rowsEach, '1..9 s');
      // What a file holds is known again by its times only once it has rested.
      await setTimeout(3000);
      const cache = join(own, 'cache');
      const [cold, again] = [0, 1].map(() => studyRun(program, notebook, cache, ['--jobs', '1']));
      rmSync(own, { recursive: true });
      return { runs, cold, again };
    };
    const least = await taken(10);
    const more: Awaited<ReturnType<typeof taken>>[] = [];
    for (const runs of [100, 1000, 10_000, 100_000]) if (runs <= Number(given)) more.push(await taken(runs));
    return more.flatMap(({ runs, cold, again }) =>
      (['cold', 'again'] as const).map((name) => {
        const [here, there] = [{ cold, again }[name], least[name]];
        const [cpu, peak] = [here.cpu - there.cpu, here.peak - there.peak].map((more) => more / (runs - least.runs));
        return {
          what: `study of ${runs} small recordings, ${name}, processor`,
          ours: here.cpu,
          note: `${cpu.toFixed(1)} ms and ${(1024 * peak).toFixed(0)} KiB for each run beyond ${least.runs}; peak ${here.peak.toFixed(0)} MiB`,
        };
      }),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}
