import { runTests } from '../runTests.ts';

/** Called by the extension host of any editor that runs these tests. */
export const run = (): Promise<void> =>
  runTests(async () => {
    await import('./activation.test.ts');
    await import('./roundTrip.test.ts');
    await import('./running.test.ts');
    await import('./virtual.test.ts');
    await import('./diagnostics.test.ts');
    await import('./language.test.ts');
    await import('./interrupting.test.ts');
    await import('./engineThreads.test.ts');
    await import('./commands.test.ts');
    await import('./prose.test.ts');
    await import('./products.test.ts');
    await import('./restoring.test.ts');
    await import('./shownAgain.test.ts');
    await import('./stale.test.ts');
    await import('./rawFiles.test.ts');
    await import('./moves.test.ts');
  });
