import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { python } from './reference.ts';

/** A program that reads the file of its last argument into columns and prints what it took, as `reading.ts` takes it. */
export interface Beside {
  readonly command: string;
  readonly args: readonly string[];
}

/** A folder in which `npm install nodejs-polars nodejs-polars-linux-x64-gnu @duckdb/node-api` was run, or none. */
const engines = process.env.WASHBOARD_BESIDE;

/** Those that are there: of the Python, and of the folder of engines for what the Python lacks. */
export function besides(): Readonly<Record<string, Beside>> {
  const ofPython = Object.entries(pythons).filter(([, { library }]) => has(library));
  const found = Object.fromEntries(
    ofPython.map(([name, { library, reading }]) => [
      name,
      { command: python, args: ['-c', inPython(library, reading)] },
    ]),
  );
  for (const [name, { module, program }] of Object.entries(nodes)) {
    if (name in found || engines === undefined || !existsSync(join(engines, 'node_modules', module))) continue;
    found[name] = { command: process.execPath, args: ['-e', inNode(join(engines, 'package.json'), program), '--'] };
  }
  return found;
}

/** A program that reads the file into columns by `reading`, which sets `columns`. */
const inPython = (library: string, reading: string): string => `
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

const pythons: Readonly<Record<string, { readonly library: string; readonly reading: string }>> = {
  pandas: {
    library: 'pandas',
    reading: "frame = pandas.read_csv(path)\ncolumns = [frame[k].values for k in 'xyz']",
  },
  'pandas, round_trip': {
    library: 'pandas',
    reading: "frame = pandas.read_csv(path, float_precision='round_trip')\ncolumns = [frame[k].values for k in 'xyz']",
  },
  duckdb: {
    library: 'duckdb',
    reading:
      "duckdb.sql('set enable_progress_bar = false')\nframe = duckdb.sql(f\"select * from read_csv('{path}')\").fetchnumpy()\ncolumns = [frame[k] for k in 'xyz']",
  },
  polars: {
    library: 'polars',
    reading: "frame = polars.read_csv(path)\ncolumns = [frame[k] for k in 'xyz']",
  },
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

/** A program that gets `prepared`, reads by `read`, and tells rows and sums by `told`. */
const inNode = (place: string, program: string): string => `
const need = require('node:module').createRequire(${JSON.stringify(place)});
${program}
(async () => {
  const path = process.argv[1];
  const ready = await prepared();
  const before = process.resourceUsage().maxRSS / 1024;
  const from = process.cpuUsage(), start = performance.now();
  const result = await read(ready, path);
  const wall = performance.now() - start, { user, system } = process.cpuUsage(from);
  const peak = process.resourceUsage().maxRSS / 1024;
  console.log(JSON.stringify({ wall, cpu: (user + system) / 1000, peak, before, ...told(result) }));
})();
`;

/** All columns are told to be doubles, so that nobody guesses; each ends with all of them in memory. */
const nodes: Readonly<Record<string, { readonly module: string; readonly program: string }>> = {
  duckdb: {
    module: '@duckdb/node-api',
    program: `
const prepared = async () => (await need('@duckdb/node-api').DuckDBInstance.create(':memory:')).connect();
const read = async (connection, path) =>
  (await connection.run("select * from read_csv('" + path + "', header = true, columns = {time: 'DOUBLE', x: 'DOUBLE', y: 'DOUBLE', z: 'DOUBLE'})")).fetchAllChunks();
const told = (chunks) => {
  const sums = [0, 0, 0];
  for (const chunk of chunks)
    for (let k = 0; k < 3; k++) for (const value of chunk.getColumnVector(k + 1).items.subarray(0, chunk.rowCount)) sums[k] += value;
  return { rows: chunks.reduce((sum, { rowCount }) => sum + rowCount, 0), sums };
};`,
  },
  polars: {
    module: 'nodejs-polars',
    program: `
const polars = need('nodejs-polars');
const prepared = () => Object.fromEntries(['time', 'x', 'y', 'z'].map((name) => [name, polars.Float64]));
const read = (dtypes, path) => polars.readCSV(path, { dtypes, rechunk: true });
const told = (frame) => ({ rows: frame.height, sums: ['x', 'y', 'z'].map((name) => frame.getColumn(name).sum()) });`,
  },
};
