import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { functionAt } from './functions.ts';
import { closureOf, root, textOf } from './modules.ts';
import type { Mutant } from './mutants.ts';
import type { Runner } from './pool.ts';
import type { Choice } from './tests.ts';
import type { Case, Done } from './worker.ts';

/** A test file that passes as the code stands, and what each of its tests runs of the room. */
export interface TestFile {
  readonly test: string;
  /** Of the texts of the file and of all that it imports. */
  readonly key: string;
  readonly seconds: number;
  readonly cases: readonly Case[];
  readonly reaches: ReadonlySet<string>;
}

/** What a test file runs of a folder; recorded once, and again when the file or anything it imports has changed. */
export async function recorded(test: string, folder: string, runner: Runner): Promise<TestFile | string> {
  const reaches = closureOf([test]);
  const hash = createHash('sha256').update(`seconds of the processor ${folder}`);
  for (const file of [...reaches].sort()) hash.update(file).update(textOf(file));
  const key = hash.digest('hex');
  const kept = join(root, 'out', 'mutate', folder, `${test}.json`);
  const done = read(kept, key) ?? (await runner.run({ record: test, folder }));
  if (done === undefined) return 'it does not end';
  if (done.end !== undefined) return done.end;
  mkdirSync(dirname(kept), { recursive: true });
  writeFileSync(kept, JSON.stringify({ key, done }));
  return { test, key, seconds: done.seconds, cases: done.cases, reaches };
}

function read(path: string, key: string): Done | undefined {
  try {
    const kept = JSON.parse(readFileSync(path, 'utf8')) as { readonly key: string; readonly done: Done };
    return kept.key === key ? kept.done : undefined;
  } catch {
    return undefined;
  }
}

/** Seconds up to which a test file is run whole. */
const brief = 1;

/** The tests that mirror a file. */
export const ownTest = (file: string): string => file.replace(/^src/, 'test').replace(/\.ts$/, '.test.ts');

/** Tests to run, and how many seconds of the processor they take. */
export interface Plan {
  readonly choices: readonly Choice[];
  /** Changes with the mutant, with the tests to run and with any text that these import. */
  readonly key: string;
  readonly seconds: number;
}

/**
 * The tests that can notice a mutant: those of files that run its function, the file that mirrors its own first, then
 * the quickest. A brief file is run whole, as one test may use what another has made once; another only with the tests
 * that run the function themselves, if they are several.
 *
 * @param slow seconds from which a test is too slow to be run
 */
export function planFor(mutant: Mutant, tests: readonly TestFile[], slow: number): Plan {
  const own = ownTest(mutant.file);
  const number = functionAt(mutant.file, textOf(mutant.file), mutant.from);
  const runs = ({ runs }: Case): boolean => number === undefined || (runs[mutant.file] ?? []).includes(number);
  const found = tests
    .filter(({ reaches, cases }) => reaches.has(mutant.file) && cases.some(runs))
    .map(({ test, key, seconds, cases }) => {
      if (seconds <= Math.min(slow, brief)) return { choice: { test }, key, seconds, count: 1 };
      const running = cases.filter(runs);
      // What one test alone runs may make what is kept for all that follow it.
      const some = (running.length === 1 ? cases : running).filter((one) => one.seconds <= slow);
      const only = some.map(({ title }) => title);
      return { choice: { test, only }, key, seconds: sum(some.map(({ seconds }) => seconds)), count: only.length };
    })
    .filter(({ count }) => count > 0)
    .sort((a, b) => Number(b.choice.test === own) - Number(a.choice.test === own) || a.seconds - b.seconds);
  const choices = found.map(({ choice }) => choice);
  const hash = createHash('sha256').update(JSON.stringify([mutant, choices, found.map(({ key }) => key)]));
  return { choices, key: hash.digest('hex'), seconds: sum(found.map(({ seconds }) => seconds)) };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);
