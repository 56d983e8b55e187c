import { strict as assert } from 'node:assert';
import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { ReadingThreads } from '../../src/disk/readingThreads.ts';
import { densitiesIn } from '../../src/disk/threadDensities.ts';
import { welchDensity } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { quietWatch } from '../engine/memoryFiles.ts';
import type { WantedDensity } from '../../src/values/ports.ts';
import { readingProgram } from './threads.ts';

const signal = (length: number, seed: number): Float64Array =>
  Float64Array.from({ length }, (_, i) => Math.sin(i * (0.1 + seed)) + Math.sin(i * i * seed));

/** Signals of one and two pieces, in segments whose lengths take every kind of transform. */
const wanted = [699, 512, 700, 699, 64, 701, 699].map((segment, k): WantedDensity => {
  const whole = signal(9000 + 100 * k, 0.01 * (k + 1));
  const pieces = k % 2 === 0 ? [whole.subarray(7, 8000)] : [whole.subarray(0, 4000), whole.subarray(4500)];
  return { pieces, options: { shape: windowShape('hann', segment), rate: 349.6, overlap: 0.5 } };
});

describe('densities that threads make', () => {
  let program: string;
  let threads: ReadingThreads;
  before(async () => {
    program = await readingProgram();
    threads = new ReadingThreads(program, 2);
  });
  after(async () => {
    await threads.dispose();
    rmSync(dirname(program), { recursive: true });
  });

  it('are those of this thread, to the bit and in order', async () => {
    const made = await densitiesIn(threads)(wanted, quietWatch);
    assert.deepEqual(
      made,
      wanted.map(({ pieces, options }) => welchDensity(pieces, options)),
    );
  });

  it('are missing where they can’t be made, and where nobody waits for them any more', async () => {
    const short = { ...wanted[0], pieces: [signal(20, 1)] };
    const made = await densitiesIn(threads)([short, wanted[1]], quietWatch);
    assert.deepEqual(made, [undefined, welchDensity(wanted[1].pieces, wanted[1].options)]);
    const cancelled = await densitiesIn(threads)(wanted, { ...quietWatch, cancelled: () => true });
    assert.ok(cancelled.every((one) => one === undefined));
  });
});
