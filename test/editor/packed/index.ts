import { runTests } from '../runTests.ts';

/** Called by the extension host of an editor in which the packed extension is installed. */
export const run = (): Promise<void> =>
  runTests(async () => {
    await import('./study.test.ts');
  });
