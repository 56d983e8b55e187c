// Runs tests as it is asked to by messages: for one mutant after the other, or to record what each test runs.
import { instrumented } from './functions.ts';
import { compile, loadPackages, Modules, textOf } from './modules.ts';
import { mutated, type Mutant } from './mutants.ts';
import { runTests, type Choice, type End } from './tests.ts';
import { used, Watchdog } from './watchdog.ts';

interface Judgement {
  readonly mutant: Mutant;
  readonly choices: readonly Choice[];
  /** Seconds of the processor within which the tests are at their end, or never are. */
  readonly limit: number;
}

/** Which functions of a folder's files do the tests of a file run? */
interface Recording {
  readonly record: string;
  readonly folder: string;
}

export type Job = Judgement | Recording;

/** One test: how many seconds of the processor it takes, and the numbers of the functions that it runs, by file. */
export interface Case {
  readonly title: string;
  readonly seconds: number;
  readonly runs: Record<string, number[]>;
}

export interface Done {
  readonly end: End;
  readonly seconds: number;
  /** Of a record alone. */
  readonly cases: readonly Case[];
}

const watchdog = new Watchdog();

// What a mutant leaves behind must not end the next one's run.
process.on('unhandledRejection', () => undefined);
process.on('message', (job: Job) => void work(job));
process.on('disconnect', () => process.exit(0));

async function work(job: Job): Promise<void> {
  const tests = 'record' in job ? [job.record] : job.choices.map(({ test }) => test);
  await loadPackages(['test/setup.ts', ...tests]);
  const cases: Case[] = [];
  const began = used();
  watchdog.watch('record' in job ? undefined : job.limit);
  const end = await endOf(() => ('record' in job ? record(job, cases) : judge(job)));
  watchdog.watch(undefined);
  const done: Done = { end, seconds: used() - began, cases };
  process.send?.(done);
}

async function endOf(run: () => Promise<End>): Promise<End> {
  try {
    return await run();
  } catch (error) {
    return `not to be run: ${error instanceof Error ? error.message : String(error)}`;
  }
}

function judge({ mutant, choices }: Judgement): Promise<End> {
  const changed = compile(mutant.file, mutated(textOf(mutant.file), mutant));
  return runTests(choices, new Modules((file) => (file === mutant.file ? changed : undefined)));
}

/** What runs outside of the tests, as their file is loaded, counts for each of them. */
async function record({ record: test, folder }: Recording, cases: Case[]): Promise<End> {
  const hits = new Map<string, Uint8Array>();
  const modules = new Modules(
    (file) => {
      if (!file.startsWith(`${folder}/`)) return undefined;
      const { text, count } = instrumented(file, textOf(file));
      hits.set(file, new Uint8Array(count));
      return compile(file, text);
    },
    (file) => hits.get(file),
  );
  const shared: [string, number[]][] = [];
  let began = 0;
  const end = await runTests([{ test }], modules, {
    begins: () => {
      shared.push(...taken(hits));
      began = used();
    },
    passed: (title) => cases.push({ title, seconds: used() - began, runs: Object.fromEntries(taken(hits)) }),
  });
  for (const { runs } of cases)
    for (const [file, numbers] of shared) runs[file] = [...new Set([...(runs[file] ?? []), ...numbers])];
  return end;
}

/** The numbers that are marked, by file; nothing is marked afterwards. */
function taken(hits: ReadonlyMap<string, Uint8Array>): [string, number[]][] {
  return [...hits].map(([file, marks]) => {
    const numbers = [...marks.keys()].filter((k) => marks[k] === 1);
    marks.fill(0);
    return [file, numbers];
  });
}
