// Runs tests for one mutant after the other, as it is asked to by messages.
import { loadPackages, Modules, textOf } from './modules.ts';
import { mutated, type Mutant } from './mutants.ts';
import { runTests, type End } from './tests.ts';

export interface Job {
  /** Undefined for the text as it stands. */
  readonly mutant: Mutant | undefined;
  readonly tests: readonly string[];
}

export interface Done {
  readonly end: End;
  readonly seconds: number;
}

// What a mutant leaves behind must not end the next one's run.
process.on('unhandledRejection', () => undefined);
process.on('message', (job: Job) => void work(job));
process.on('disconnect', () => process.exit(0));

async function work({ mutant, tests }: Job): Promise<void> {
  await loadPackages(['test/setup.ts', ...tests]);
  const began = process.hrtime.bigint();
  const end = await endOf(mutant, tests);
  const done: Done = { end, seconds: Number(process.hrtime.bigint() - began) / 1e9 };
  process.send?.(done);
}

async function endOf(mutant: Mutant | undefined, tests: readonly string[]): Promise<End> {
  const changed = mutant && { file: mutant.file, text: mutated(textOf(mutant.file), mutant) };
  try {
    return await runTests(tests, new Modules(changed));
  } catch (error) {
    return `not to be run: ${error instanceof Error ? error.message : String(error)}`;
  }
}
