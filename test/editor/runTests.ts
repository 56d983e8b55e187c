import { renameSync, writeFileSync } from 'node:fs';
import Mocha from 'mocha';

/**
 * Runs the tests that `load` defines. Writes the outcome to the file that `TEST_REPORT` names, and fails if a test did: a
 * desktop editor then ends with an error.
 */
export async function runTests(load: () => Promise<void>): Promise<void> {
  const grep = process.env['TEST_GREP'];
  const mocha = new Mocha({ ui: 'bdd', timeout: 60_000, ...(grep && { grep }) });
  mocha.suite.emit('pre-require', globalThis, '', mocha);
  await load();
  const failures: { title: string; error: string }[] = [];
  const passes: string[] = [];
  await new Promise<void>((resolve) => {
    const runner = mocha.run(() => {
      const stats = { passes: runner.stats?.passes ?? 0, failures: runner.stats?.failures ?? 0 };
      report({ ok: stats.failures === 0, stats, passes, failures });
      resolve();
    });
    runner.on('pass', (test) => passes.push(test.fullTitle()));
    runner.on('fail', (test, error: Error) =>
      failures.push({ title: test.fullTitle(), error: error.stack ?? error.message }),
    );
  });
  if (failures.length > 0)
    throw new Error(`${failures.length} tests failed: ${failures.map(({ title }) => title).join('; ')}`);
}

/** Renamed into place, so that who waits for the file never reads half of it. */
function report(outcome: object): void {
  const file = process.env['TEST_REPORT'];
  if (!file) return;
  writeFileSync(`${file}.part`, JSON.stringify(outcome));
  renameSync(`${file}.part`, file);
}
