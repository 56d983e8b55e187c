import Mocha from 'mocha';
import { Modules } from './modules.ts';

class Silent extends Mocha.reporters.Base {}

/** What ended a run of tests: nothing, or the first failure. */
export type End = string | undefined;

/** Runs test files one after the other, until one fails. */
export async function runTests(tests: readonly string[], modules: Modules): Promise<End> {
  modules.load('test/setup.ts');
  for (const test of tests) {
    const end = await runFile(test, modules);
    if (end !== undefined) return end;
  }
  return undefined;
}

async function runFile(test: string, modules: Modules): Promise<End> {
  const mocha = new Mocha({ ui: 'bdd', bail: true, timeout: 60_000, reporter: Silent });
  // Gives `describe`, `it` and the others to the file, as mocha does.
  mocha.suite.emit('pre-require', globalThis, test, mocha);
  try {
    modules.load(test);
  } catch (error) {
    return `${test}: ${error instanceof Error ? error.message : String(error)}`;
  }
  let end: End;
  await new Promise<void>((resolve) => {
    mocha.run(() => resolve()).on('fail', (failed) => (end ??= `${test}: ${failed.fullTitle()}`));
  });
  mocha.dispose();
  return end;
}
