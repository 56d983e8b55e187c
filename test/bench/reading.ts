/**
 * Reading a 100 MB recording beside pandas' C reader, and DuckDB and polars where the Python has them, in one run: `npx tsx
 * test/bench/reading.ts [rounds]`. Each round
 * reads the file once in a fresh process of each, in turn; times are of the reading alone, memory is the most that the
 * process held. The file is written to the system's folder for temporary files and removed.
 */
import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { python } from './reference.ts';

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

const ours = (reader: string): string => `
import { open } from 'node:fs/promises';
import { read } from ${JSON.stringify(reader)};
const file = await open(process.argv[2]);
const { size } = await file.stat();
const buffer = Buffer.allocUnsafe(1 << 22);
const source = { path: 'run.csv', size, read: async (at, length) => buffer.subarray(0, (await file.read(buffer, 0, Math.min(length, buffer.length), at)).bytesRead) };
const before = process.resourceUsage().maxRSS / 1024;
const cpu = process.cpuUsage();
const start = performance.now();
const result = await read(source, {}, { cancelled: () => false, progress: () => {} });
const wall = performance.now() - start;
const { user, system } = process.cpuUsage(cpu);
const peak = process.resourceUsage().maxRSS / 1024;
if (!result.ok) throw new Error(result.failure.message);
const { channels, clock } = result.value;
const sums = channels.map(({ samples }) => samples.reduce((sum, value) => sum + value, 0));
console.log(JSON.stringify({ wall, cpu: (user + system) / 1000, peak, before, rows: channels[0].samples.length, sums, rate: clock.rate }));
`;

/** A program that reads the file into columns by `reading`, which sets `rows` and `sums`. */
const beside = (library: string, reading: string): string => `
import json, resource, sys, time
import ${library}
peak = lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
before = peak()
path = sys.argv[1]
c, t = time.process_time(), time.perf_counter()
${reading}
wall, cpu = time.perf_counter() - t, time.process_time() - c
print(json.dumps(dict(wall=1000 * wall, cpu=1000 * cpu, peak=peak(), before=before, rows=len(columns[0]), sums=[float(column.sum()) for column in columns])))
`;

const others: Readonly<Record<string, string>> = {
  pandas: beside('pandas', "frame = pandas.read_csv(path)\ncolumns = [frame[k].values for k in 'xyz']"),
  'pandas, round_trip': beside(
    'pandas',
    "frame = pandas.read_csv(path, float_precision='round_trip')\ncolumns = [frame[k].values for k in 'xyz']",
  ),
  duckdb: beside(
    'duckdb',
    "duckdb.sql('set enable_progress_bar = false')\nframe = duckdb.sql(f\"select * from read_csv('{path}')\").fetchnumpy()\ncolumns = [frame[k] for k in 'xyz']",
  ),
  polars: beside('polars', "frame = polars.read_csv(path)\ncolumns = [frame[k] for k in 'xyz']"),
};

/** Whether the Python has a library. */
function has(library: string): boolean {
  try {
    execFileSync(python, ['-c', `import ${library}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

const folder = mkdtempSync(join(tmpdir(), 'washboard-reading-'));
try {
  const path = join(folder, 'run.csv');
  writeRecording(path);
  const script = join(folder, 'read.mjs');
  const entry = fileURLToPath(new URL('../../src/readers/read.ts', import.meta.url));
  const bundle = { bundle: true, format: 'esm', platform: 'node', logLevel: 'error' } as const;
  await build({ ...bundle, stdin: { contents: ours(entry), resolveDir: folder, loader: 'js' }, outfile: script });
  const run = (command: string, args: readonly string[]): Measure =>
    JSON.parse(execFileSync(command, [...args, path], { encoding: 'utf8' })) as Measure;
  const there = Object.keys(others).filter((name) => has(name.split(',')[0]));
  const contestants: Readonly<Record<string, () => Measure>> = {
    washboard: () => run(process.execPath, [script]),
    ...Object.fromEntries(there.map((name) => [name, () => run(python, ['-c', others[name]])])),
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
    const ratio = (key: 'wall' | 'cpu' | 'peak'): string => (of('washboard', key) / of(name, key)).toFixed(2);
    console.log(`washboard / ${name}: wall ${ratio('wall')}, CPU ${ratio('cpu')}, peak memory ${ratio('peak')}`);
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
