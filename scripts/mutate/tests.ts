import Mocha from 'mocha';
import type { Modules } from './modules.ts';

// On a busy machine a test takes any time, so that none fails by its time here; the watchdog ends what has no end.
Mocha.Runnable.prototype.resetTimeout = () => undefined;
Mocha.Runnable.prototype.timeout = function (this: Mocha.Runnable, given?: string | number) {
  return given === undefined ? 0 : this;
} as Mocha.Runnable['timeout'];

class Silent extends Mocha.reporters.Base {}

/** What ended a run of tests: nothing, or the first failure. */
export type End = string | undefined;

/** A test file, or some of its tests, named by their full titles. */
export interface Choice {
  readonly test: string;
  readonly only?: readonly string[];
}

/** Is told of each test. */
export interface Watch {
  readonly begins: () => void;
  readonly passed: (title: string) => void;
}

/** Runs test files one after the other, until a test fails. */
export async function runTests(choices: readonly Choice[], modules: Modules, watch?: Watch): Promise<End> {
  const { mochaHooks } = modules.load('test/setup.ts') as { mochaHooks: { beforeAll(): Promise<void> } };
  await mochaHooks.beforeAll();
  for (const choice of choices) {
    const end = await runFile(choice, modules, watch);
    if (end !== undefined) return end;
  }
  return undefined;
}

async function runFile({ test, only }: Choice, modules: Modules, watch?: Watch): Promise<End> {
  const mocha = new Mocha({ ui: 'bdd', bail: true, timeout: 0, reporter: Silent });
  // Gives `describe`, `it` and the others to the file, as mocha does.
  mocha.suite.emit('pre-require', globalThis, test, mocha);
  try {
    modules.load(test);
  } catch (error) {
    return `${test}: ${error instanceof Error ? error.message : String(error)}`;
  }
  if (only !== undefined) keepOnly(mocha.suite, new Set(only));
  let end: End;
  await new Promise<void>((resolve) => {
    mocha
      .run(() => resolve())
      .on('test', () => watch?.begins())
      .on('pass', (passed) => watch?.passed(passed.fullTitle()))
      .on('fail', (failed) => (end ??= `${test}: ${failed.fullTitle()}`));
  });
  mocha.dispose();
  return end;
}

function keepOnly(suite: Mocha.Suite, titles: ReadonlySet<string>): void {
  suite.tests = suite.tests.filter((test) => titles.has(test.fullTitle()));
  for (const inner of suite.suites) keepOnly(inner, titles);
}
