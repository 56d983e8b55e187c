import fc from 'fast-check';
import { readyToDraw } from '../src/charts/compiled.ts';

// The same cases on every machine, so that a clean clone passes or fails for what it holds. Other cases are tried
// with WASHBOARD_SEED=random, or a number; a failure prints the seed that repeats it.
const { WASHBOARD_SEED: asked } = process.env;
if (asked !== 'random') fc.configureGlobal({ seed: Number(asked ?? 20260301) });

/** The picture of a chart is looked at as it is made, with nobody who would wait for what compiles it. */
export const mochaHooks = {
  async beforeAll(): Promise<void> {
    await readyToDraw();
    // Files of tests are loaded in two ways, each with its own copy of what they import.
    await (await import('../src/charts/compiled.ts')).readyToDraw();
  },
};
