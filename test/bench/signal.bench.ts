import { butterworth } from '../../src/signal/butterworth.ts';
import { zeroPhase } from '../../src/signal/filter.ts';
import { welchDensity, WelchSum } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import type { Reference } from './reference.ts';
import { medianOf, timesOf, type Row } from './row.ts';

const million = 1_000_000;

/** Rows of the signal room: ours and scipy's by turns, so that a busy machine slows both alike. */
export async function rows(reference: Reference): Promise<Row[]> {
  const samples = noise(10 * million);
  const found: Row[] = [];
  for (const segment of [1024, 1000, 4096, 699, 701]) {
    const shape = windowShape('hann', segment);
    const welch = (vectors: boolean): unknown => welchDensity([samples], { shape, rate: 350, vectors });
    const [plain, compiled] = await byTurns([() => welch(false), () => welch(true)], reference, 'welch', [
      10 * million,
      segment,
    ]);
    found.push({
      what: `Welch, 10 M samples, segment ${segment}, plain TypeScript`,
      ...plain,
      // Of large primes, in 699 = 3 x 233 and in 701, no goal: all hosts at hand have vectors.
      ...(segment % 2 === 0 ? { goal: 0.6 } : {}),
    });
    found.push({ what: `Welch, 10 M samples, segment ${segment}, vectors`, ...compiled, goal: 0.3 });
  }
  const sections = butterworth('highpass', 4, [2], 350);
  const into = new Float64Array(samples.length);
  const filter = (): unknown => zeroPhase(sections, samples, into);
  const [filtered] = await byTurns([filter], reference, 'highpass', [10 * million]);
  found.push({ what: 'zero-phase highpass of order 4, 10 M samples', ...filtered, goal: 0.7 });
  return [...found, ...growth()];
}

async function byTurns(
  ours: readonly (() => unknown)[],
  reference: Reference,
  name: string,
  args: readonly number[],
): Promise<Pick<Row, 'ours' | 'reference'>[]> {
  const mine: number[][] = ours.map(() => []);
  const theirs: number[] = [];
  for (let turn = 0; turn < 3; turn++) {
    ours.forEach((work, i) => mine[i].push(...timesOf(2, work)));
    theirs.push(...(await reference.times(name, args, 2)));
  }
  return mine.map((times) => ({ ours: medianOf(times), reference: { name: 'scipy', median: medianOf(theirs) } }));
}

/** Cost by streaming blocks of a hundred thousand samples, which shows whether it is linear. */
function growth(): Row[] {
  const block = noise(100_000);
  const shape = windowShape('hann', 1024);
  return [1, 10, 100, 1000].map((blocks) => {
    // The longest comes last, when all is warm, and once.
    const repeats = blocks === 1000 ? 1 : 5;
    const ours = medianOf(
      timesOf(
        repeats,
        () => {
          const sum = new WelchSum({ shape, rate: 350 });
          for (let i = 0; i < blocks; i++) sum.addBlock(block);
          return sum.density();
        },
        blocks < 1000,
      ),
    );
    const each = (ours * 1e6) / (blocks * block.length);
    return {
      what: `Welch, ${(blocks * block.length).toExponential(0)} samples in blocks, segment 1024`,
      ours,
      note: `${each.toFixed(1)} ns a sample`,
    };
  });
}

function noise(count: number): Float64Array {
  let state = 1;
  const samples = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    samples[i] = 1 + state / 2 ** 32;
  }
  return samples;
}
