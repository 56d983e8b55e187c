/**
 * Reading a 100 MB recording beside pandas' C reader, DuckDB and polars, as far as they are there (readingBeside.ts), in one
 * run: `npx tsx test/bench/reading.ts [rounds]`. Each round reads the file once in a fresh process of each, in turn; times
 * are of the reading alone, memory is the most that the process held. We do it three times: the columns alone, and as a
 * notebook has it read, with the file's hash and its findings, by one thread and by two. The file is written to the system's folder for temporary
 * files and removed.
 */
import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { apartOfThread } from '../../scripts/build/apart.mjs';
import { besides } from './readingBeside.ts';

const rounds = Number(process.argv[2] ?? 5);
const count = 2_700_000;

interface Measure {
  readonly wall: number;
  readonly cpu: number;
  /** MiB at the peak, and before the reading. */
  readonly peak: number;
  readonly before: number;
  readonly rows: number;
  /** Sum of each column, so that nobody is quick by leaving something out. */
  readonly sums: readonly number[];
}

function writeRecording(path: string): void {
  const file = openSync(path, 'w');
  let text = 'time,x,y,z\n';
  let state = 1;
  const even = (): number => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647 - 0.5;
  for (let i = 0; i < count; i++) {
    text += `${(i / 3200).toFixed(6)},${even().toFixed(5)},${(2 * even()).toFixed(5)},${(10 + even()).toFixed(6)}\n`;
    if (text.length > 1 << 20) {
      writeSync(file, text);
      text = '';
    }
  }
  writeSync(file, text);
  closeSync(file);
}

/** A program that reads by `reading`, which sets `result`. */
const ours = (imports: string, reading: string): string => `
import { open } from 'node:fs/promises';
${imports}
const path = process.argv[2];
const watch = { cancelled: () => false, progress: () => {} };
const before = process.resourceUsage().maxRSS / 1024;
const cpu = process.cpuUsage();
const start = performance.now();
${reading}
const wall = performance.now() - start;
const { user, system } = process.cpuUsage(cpu);
const peak = process.resourceUsage().maxRSS / 1024;
if (!result.ok) throw new Error(result.failure.message);
const { channels, clock } = result.value;
const sums = channels.map(({ samples }) => samples.reduce((sum, value) => sum + value, 0));
console.log(JSON.stringify({ wall, cpu: (user + system) / 1000, peak, before, rows: channels[0].samples.length, sums, rate: clock.rate }));
process.exit();
`;

const source = (path: string): string => JSON.stringify(fileURLToPath(new URL(`../../src/${path}`, import.meta.url)));

/** The program of the second thread, beside ours. */
const beside = 'beside.cjs';

/** Our programs: the columns alone, and with the findings and the hash of the file. */
const programs: Readonly<Record<string, string>> = {
  columns: ours(
    `import { read } from ${source('readers/read.ts')};`,
    `const file = await open(path);
const { size } = await file.stat();
const buffer = Buffer.allocUnsafe(1 << 22);
const result = await read({ path, size, read: async (at, length) => buffer.subarray(0, (await file.read(buffer, 0, Math.min(length, buffer.length), at)).bytesRead) }, {}, watch);`,
  ),
  whole: ours(
    `import { readRecording } from ${source('disk/readRecording.ts')};`,
    `const { recording: result } = await readRecording({ path, absolute: path, options: {}, channels: [] }, watch);`,
  ),
  two: ours(
    `import { fileURLToPath } from 'node:url';
import { readRecording } from ${source('disk/readRecording.ts')};
import { ReadingThreads } from ${source('disk/readingThreads.ts')};`,
    `const { beside, expectBeside } = new ReadingThreads(fileURLToPath(new URL('${beside}', import.meta.url)), 2);
const { recording: result } = await readRecording({ path, absolute: path, options: {}, channels: [] }, { ...watch, beside, expectBeside });`,
  ),
};

const withFindings = 'with hash, findings';
const byTwo = 'the same, 2 threads';

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

const folder = mkdtempSync(join(tmpdir(), 'washboard-reading-'));
try {
  const path = join(folder, 'run.csv');
  writeRecording(path);
  const banner = { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" };
  const bundle = { bundle: true, format: 'esm', platform: 'node', logLevel: 'error', banner } as const;
  for (const [name, contents] of Object.entries(programs))
    await build({
      ...bundle,
      stdin: { contents, resolveDir: folder, loader: 'js' },
      outfile: join(folder, `${name}.mjs`),
    });
  // As it is packed: what the second thread does not need is not loaded.
  await build({
    ...{ ...bundle, format: 'cjs', banner: {} },
    entryPoints: [fileURLToPath(new URL('../../src/disk/readingThread.ts', import.meta.url))],
    outfile: join(folder, beside),
    plugins: [apartOfThread],
  });
  const run = (command: string, args: readonly string[]): Measure =>
    JSON.parse(execFileSync(command, [...args, path], { encoding: 'utf8' })) as Measure;
  const others = besides();
  const there = Object.keys(others);
  const contestants: Readonly<Record<string, () => Measure>> = {
    washboard: () => run(process.execPath, [join(folder, 'columns.mjs')]),
    [withFindings]: () => run(process.execPath, [join(folder, 'whole.mjs')]),
    [byTwo]: () => run(process.execPath, [join(folder, 'two.mjs')]),
    ...Object.fromEntries(there.map((name) => [name, () => run(others[name].command, others[name].args)])),
  };
  const found = Object.fromEntries(Object.keys(contestants).map((name) => [name, [] as Measure[]]));
  for (let round = 0; round < rounds; round++)
    for (const [name, once] of Object.entries(contestants)) found[name].push(once());
  const bytes = statSync(path).size;
  console.log(`${(bytes / 1e6).toFixed(1)} MB, ${count} rows of 4 columns, median of ${rounds} rounds`);
  const of = (name: string, key: 'wall' | 'cpu' | 'peak' | 'before'): number =>
    median(found[name].map((one) => one[key]));
  for (const name of Object.keys(contestants)) {
    console.log(
      `${name.padEnd(19)} wall ${of(name, 'wall').toFixed(0).padStart(5)} ms, CPU ${of(name, 'cpu').toFixed(0).padStart(5)} ms, peak ${of(name, 'peak').toFixed(0).padStart(4)} MiB (${of(name, 'before').toFixed(0)} before), ${(bytes / 1e3 / of(name, 'wall')).toFixed(0)} MB/s`,
    );
  }
  for (const name of there) {
    for (const mine of ['washboard', withFindings, byTwo]) {
      const ratio = (key: 'wall' | 'cpu' | 'peak'): string => (of(mine, key) / of(name, key)).toFixed(2);
      console.log(`${mine} / ${name}: wall ${ratio('wall')}, CPU ${ratio('cpu')}, peak memory ${ratio('peak')}`);
    }
  }
  const perSample = ((of('washboard', 'peak') - of('washboard', 'before')) * 2 ** 20) / (4 * count);
  console.log(`memory over the process's own: ${perSample.toFixed(1)} bytes a sample (8 are the sample)`);
  const [mine] = found.washboard;
  for (const name of there) {
    const [{ rows, sums }] = found[name];
    const differs = mine.sums.map((sum, k) => Math.abs(sum / sums[k] - 1));
    if (mine.rows !== rows || Math.max(...differs) > 1e-9) throw new Error(`${name} does not agree on the values`);
  }
} finally {
  rmSync(folder, { recursive: true });
}
