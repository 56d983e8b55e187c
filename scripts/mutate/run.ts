// Changes the formulas in small ways, one at a time, and counts the changes that the tests of the room notice.
import { readdirSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { rooms } from '../rooms.mjs';
import { ownTest, planFor, recorded, type TestFile } from './coverage.ts';
import { closureOf, root, textOf } from './modules.ts';
import { mutantsOf, type Mutant } from './mutants.ts';
import { Runner } from './pool.ts';
import { Verdicts } from './verdicts.ts';

const usage = `Usage: npm run mutate -- [--room ROOM]… [--file PART] [--count N] [--seed N] [--own | --alone] [--jobs N] [--slow SECONDS]
  --room   signal, statistics, readers or language; all four unless said
  --file   only files whose path contains this
  --count  mutants a room, drawn at random; 150 unless said, 0 for all
  --seed   of the draw; 1 unless said
  --own    run the tests alone that mirror the changed file: quicker, and less is noticed
  --alone  run the tests of the room and the published checks alone, not those of the rooms above
  --jobs   processes at a time
  --slow   tests that take longer are not run; seconds of the processor, 5 unless said
`;

interface Equivalent {
  readonly file: string;
  readonly before: string;
  readonly after: string;
  /** Why no test can tell the two apart. */
  readonly reason: string;
}

interface Score {
  killed: number;
  timedOut: number;
  /** Of the killed, those that no test of the room noticed. */
  above: number;
  equivalent: number;
  readonly survivors: Mutant[];
}

const equivalents = JSON.parse(readFileSync(new URL('equivalent.json', import.meta.url), 'utf8')) as Equivalent[];
const generated = ['src/signal/welchKernel.ts'];
/** Takes minutes, and asks of thousands of files only that what is read is sound. */
const slowest = ['test/readers/hostile.test.ts'];
/** Awaits outside of its functions, for a module of its own: here modules are functions, which can't. */
const asModule = ['test/readers/reusedMemory.test.ts'];

const { values } = parseArgs({
  options: {
    room: { type: 'string', multiple: true, default: ['signal', 'statistics', 'readers', 'language'] },
    file: { type: 'string', default: '' },
    count: { type: 'string', default: '150' },
    seed: { type: 'string', default: '1' },
    own: { type: 'boolean', default: false },
    alone: { type: 'boolean', default: false },
    jobs: { type: 'string', default: String(availableParallelism()) },
    slow: { type: 'string', default: '5' },
    help: { type: 'boolean', default: false },
  },
});
const verdicts = new Verdicts();
if (values.help) process.stdout.write(usage);
else for (const room of values.room) print(room, await scoreOf(room));

async function scoreOf(room: string): Promise<Score> {
  const files = filesIn(`src/${room}`).filter(
    (file) => file.includes(values.file) && !file.endsWith('.d.ts') && !generated.includes(file),
  );
  const all = files.flatMap((file) => mutantsOf(file, textOf(file)));
  const sample = Number(values.count) === 0 ? all : drawn(all, Number(values.count), Number(values.seed));
  process.stdout.write(`${room}: ${sample.length} of ${all.length} mutants of ${files.length} files\n`);
  const runners = Array.from({ length: Number(values.jobs) }, () => new Runner());
  try {
    const own = values.own ? new Set(sample.map(({ file }) => ownTest(file))) : undefined;
    const score = await scoreBy(await testsOf(room, [room, 'published'], runners, own), sample, runners);
    if (!values.own && !values.alone && score.survivors.length > 0) await askAbove(room, score, runners);
    return score;
  } finally {
    for (const runner of runners) runner.stop();
  }
}

function filesIn(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .sort();
}

/** So many of a list, drawn without putting back. The generator is Marsaglia's xorshift32. */
function drawn<T>(list: readonly T[], count: number, seed: number): T[] {
  const left = [...list];
  let state = Math.imul(seed, 0x9e3779b9) | 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  return Array.from(
    { length: Math.min(count, left.length) },
    () => left.splice(Math.floor(next() * left.length), 1)[0],
  );
}

/** Rooms whose tests run the code of others and are no tests of a door, whose programs and pages run what is built. */
const lookers: readonly (keyof typeof rooms)[] = ['readers', 'values', 'analysis', 'verbs', 'charts', 'engine', 'disk'];

/** The rooms that import a room, by others too, whose tests may notice what its own do not. */
function roomsAbove(room: string): string[] {
  const importers = (below: string): string[] =>
    lookers.filter((name) => (rooms[name].imports as readonly string[]).includes(below));
  const found = new Set(importers(room));
  for (const name of found) for (const above of importers(name)) found.add(above);
  return [...found];
}

/** The tests in some folders that need the room; a test must pass before it can judge. */
async function testsOf(
  room: string,
  folders: readonly string[],
  runners: readonly Runner[],
  only?: ReadonlySet<string>,
): Promise<TestFile[]> {
  const queue = folders
    .flatMap((folder) => filesIn(`test/${folder}`))
    .filter(
      (file) => file.endsWith('.test.ts') && ![...slowest, ...asModule].includes(file) && (only?.has(file) ?? true),
    )
    .filter((file) => [...closureOf([file])].some((reached) => reached.startsWith(`src/${room}/`)));
  const found: TestFile[] = [];
  const work = async (runner: Runner): Promise<void> => {
    for (let test = queue.shift(); test !== undefined; test = queue.shift()) {
      const file = await recorded(test, `src/${room}`, runner);
      if (typeof file !== 'string') found.push(file);
      else process.stdout.write(`  ${test} is left out, as it fails by itself: ${file}\n`);
    }
  };
  await Promise.all(runners.map(work));
  return found;
}

/** Takes the mutants that no test of the room noticed to the tests of the rooms that are built on it. */
async function askAbove(room: string, score: Score, runners: readonly Runner[]): Promise<void> {
  const folders = roomsAbove(room);
  const asked = score.survivors.splice(0);
  process.stdout.write(`  ${asked.length} not noticed by the room's tests go to those of ${folders.join(', ')}\n`);
  const found = await scoreBy(await testsOf(room, folders, runners), asked, runners);
  score.killed += found.killed;
  score.timedOut += found.timedOut;
  score.above = found.killed + found.timedOut;
  score.survivors.push(...found.survivors);
}

async function scoreBy(
  tests: readonly TestFile[],
  sample: readonly Mutant[],
  runners: readonly Runner[],
): Promise<Score> {
  const score: Score = { killed: 0, timedOut: 0, above: 0, equivalent: 0, survivors: [] };
  const queue = [...sample];
  let done = 0;
  const work = async (runner: Runner): Promise<void> => {
    for (let mutant = queue.shift(); mutant !== undefined; mutant = queue.shift()) {
      if (equivalents.some((one) => isSame(one, mutant))) score.equivalent++;
      else await judge(mutant, tests, runner, score);
      if (++done % 20 === 0) process.stdout.write(`  ${done} done, ${score.survivors.length} not noticed\n`);
    }
  };
  await Promise.all(runners.map(work));
  return score;
}

function isSame(one: Equivalent, { file, before, after }: Mutant): boolean {
  return one.file === file && one.before === before && one.after === after;
}

async function judge(mutant: Mutant, tests: readonly TestFile[], runner: Runner, score: Score): Promise<void> {
  const { choices, key, seconds } = planFor(mutant, tests, Number(values.slow));
  let verdict = verdicts.get(key);
  if (verdict === undefined) {
    const done = await runner.run({ mutant, choices, limit: 10 + 5 * seconds });
    verdict = done === undefined ? 'endless' : done.end === undefined ? 'survived' : 'noticed';
    verdicts.give(key, verdict);
  }
  if (verdict === 'endless') score.timedOut++;
  else if (verdict === 'noticed') score.killed++;
  else {
    score.survivors.push(mutant);
    const { file, line, before, after } = mutant;
    process.stdout.write(`  ${file}:${line}\n    - ${before}\n    + ${after}\n`);
  }
}

function print(room: string, { killed, timedOut, above, equivalent, survivors }: Score): void {
  const noticed = killed + timedOut;
  const judged = noticed + survivors.length;
  const share = judged === 0 ? '' : ` = ${((100 * noticed) / judged).toFixed(1)} %`;
  const parts = `${above} of them by tests of the rooms above alone, ${timedOut} by not ending`;
  const besides = `${parts}; ${equivalent} known to be equivalent are not counted`;
  process.stdout.write(`${room}: ${noticed} of ${judged} mutants noticed${share} (${besides})\n`);
}
