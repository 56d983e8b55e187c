import { strict as assert } from 'node:assert';

/** Below this much processor time, in s, a figure is noise. */
const noise = 0.05;
/** Work that grows with the input makes four times as much of it; work that grows with its square sixteen times. */
const most = 9;

async function seconds(work: () => unknown): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

/** Holds the work on a text of four times the size to some four times the processor time: a slow machine is no failure. */
export async function holdToGrowth<T>(
  make: (size: number) => T,
  size: number,
  work: (input: T) => unknown,
): Promise<void> {
  const [small, large] = [make(size), make(4 * size)];
  await work(make(10));
  const ratios: number[] = [];
  // What else the machine did meanwhile can only make a ratio worse: the best of some counts.
  for (let turn = 0; turn < 4; turn++) {
    const before = await seconds(() => work(small));
    const after = await seconds(() => work(large));
    if (after / Math.max(before, noise) < most) return;
    ratios.push(after / Math.max(before, noise));
  }
  assert.fail(`four times as much takes ${ratios.map((ratio) => ratio.toFixed(1)).join(', ')} times as long`);
}
