import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Row } from './row.ts';
import { bundled, freshRun } from './studyRun.ts';

export const isForItself = true;

const steps = {
  reading: 'r = load "long.csv"',
  levels: 'r = load "long.csv"\nlevels r',
  spectrum: 'r = load "long.csv"\nspectrum r using window hann 1 s',
  'running level': 'r = load "long.csv"\nrunning r over 1 s',
  spectrogram: 'r = load "long.csv"\nspectrogram r',
  plot: 'r = load "long.csv"\nplot r',
};

/**
 * Recordings that are too large for memory: of 3.3 GB and of as many GB as are said, 6.6 unless they are, what each result
 * takes by a fresh process that keeps nothing. The peak must stay below 1 GiB and not grow with the recording.
 */
export async function rows(_: unknown, [given = '6.6']: readonly string[] = []): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'washboard-long-'));
  try {
    const program = await bundled(folder);
    return [3.3, Number(given)].flatMap((size) => {
      const file = join(folder, 'long.csv');
      writeLong(file, size * 1e9);
      const size9 = statSync(file).size / 1e9;
      return Object.entries(steps).map(([what, text]) => {
        const notebook = join(folder, 'long.washboard.md');
        writeFileSync(notebook, `\`\`\`washboard\n${text}\n\`\`\`\n`);
        const { cpu, wall, peak, stdout } = freshRun(program, notebook, join(folder, 'cache'), ['--no-cache']);
        if (!stdout.includes('"error": null') && stdout.includes('"code": "run.long"')) throw new Error(stdout);
        const note = `${(wall / 1000 / size9).toFixed(1)} s a GB on the wall; peak ${peak.toFixed(0)} MiB`;
        return { what: `${size9.toFixed(1)} GB of text, ${what}, processor`, ours: cpu, note };
      });
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Writes 3 axes in g at 1 kHz with their time, one stretch of noise again and again, to at least so many bytes. */
function writeLong(file: string, bytes: number): void {
  let state = 1;
  const noise = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32 - 0.5;
  const readings = Array.from({ length: 100_003 }, () =>
    [0, 0, 1].map((mean) => (mean + 0.4 * (noise() + noise())).toFixed(4)).join(','),
  );
  const handle = openSync(file, 'w');
  writeSync(handle, 'time (s),x (g),y (g),z (g)\n');
  for (let row = 0, written = 0; written < bytes;) {
    const lines: string[] = [];
    for (let i = 0; i < 50_000; i++, row++)
      lines.push(`${(row / 1000).toFixed(3)},${readings[row % readings.length]}\n`);
    written += writeSync(handle, lines.join(''));
  }
  closeSync(handle);
}
