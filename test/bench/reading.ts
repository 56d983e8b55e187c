/**
 * Reading a 100 MB recording beside pandas' C reader, in one run: `npx tsx test/bench/reading.ts [rounds]`. Each round
 * reads the file once in a fresh process of each, in turn; times are of the reading alone, memory is the most that the
 * process held. The file is written to the system's folder for temporary files and removed.
 */
import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

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

const pandas = `
import json, resource, sys, time
import pandas
peak = lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
before = peak()
c, t = time.process_time(), time.perf_counter()
frame = pandas.read_csv(sys.argv[1]${'OPTIONS'})
wall, cpu = time.perf_counter() - t, time.process_time() - c
print(json.dumps(dict(wall=1000 * wall, cpu=1000 * cpu, peak=peak(), before=before, rows=len(frame), sums=[float(frame[k].sum()) for k in 'xyz'])))
`;

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
  const contestants = {
    washboard: () => run(process.execPath, [script]),
    pandas: () => run('/usr/bin/python3', ['-c', pandas.replace('OPTIONS', '')]),
    'pandas, round_trip': () =>
      run('/usr/bin/python3', ['-c', pandas.replace('OPTIONS', ", float_precision='round_trip'")]),
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
  for (const name of ['pandas', 'pandas, round_trip']) {
    const ratio = (key: 'wall' | 'cpu' | 'peak'): string => (of('washboard', key) / of(name, key)).toFixed(2);
    console.log(`washboard / ${name}: wall ${ratio('wall')}, CPU ${ratio('cpu')}, peak memory ${ratio('peak')}`);
  }
  const perSample = ((of('washboard', 'peak') - of('washboard', 'before')) * 2 ** 20) / (4 * count);
  console.log(`memory over the process's own: ${perSample.toFixed(1)} bytes a sample (8 are the sample)`);
  const differs = found.washboard[0].sums.map((sum, k) => Math.abs(sum / found.pandas[0].sums[k] - 1));
  if (found.washboard[0].rows !== found.pandas[0].rows || Math.max(...differs) > 1e-9)
    throw new Error('the readers do not agree on the values');
} finally {
  rmSync(folder, { recursive: true });
}
