import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The study: two sets of recordings, each trimmed, compared over three bands. */
const notebook = `# Foam and gel

\`\`\`washboard
foam = load "raw/a-*.csv" channel z label "foam" | trim 5..80 s
gel = load "raw/b-*.csv" channel z label "gel" | trim 5..80 s
compare foam with gel over 4..10 Hz, 10..50 Hz, 50..100 Hz
\`\`\`
`;

/** Writes a study of `runs` recordings of `rows` rows and 3 axes into a folder, the same each time; gives the notebook's path. */
export function writeStudy(folder: string, runs: number, rows = 30_000, trim = '5..80 s'): string {
  mkdirSync(join(folder, 'raw'), { recursive: true });
  for (let run = 0; run < runs; run++) {
    const side = run % 2 === 0 ? 'a' : 'b';
    writeRecording(join(folder, 'raw', `${side}-${String(run >> 1).padStart(4, '0')}.csv`), rows, run);
  }
  const path = join(folder, 'study.washboard.md');
  writeFileSync(path, notebook.replaceAll('5..80 s', trim));
  return path;
}

function writeRecording(path: string, rows: number, run: number): void {
  const rate = 349.6;
  let state = 20_260_301 + 7919 * run;
  const noise = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  const gain = (run % 2 === 0 ? 1 : 0.9) * (1 + 0.1 * noise());
  const lines = ['time,x,y,z'];
  for (let i = 0; i < rows; i++) {
    const t = i / rate;
    const x = 0.02 + 0.1 * noise();
    const y = -0.01 + 0.08 * Math.sin(2 * Math.PI * 7.3 * t) + 0.05 * noise();
    const z = 0.98 + gain * (0.3 * Math.sin(2 * Math.PI * 17.77 * t) + 0.4 * noise());
    lines.push(`${t.toFixed(4)},${x.toFixed(5)},${y.toFixed(5)},${z.toFixed(5)}`);
  }
  writeFileSync(path, `${lines.join('\n')}\n`);
}
