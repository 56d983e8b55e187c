import { withClockTroubles } from './clockMutations.ts';
import { judge } from './judge.ts';
import { mutated, randomOf } from './mutate.ts';
import { seedsOf, type Kind } from './seeds.ts';

/** An input that something is wrong with, and what. */
export interface Fall {
  readonly index: number;
  readonly kind: Kind;
  readonly bytes: Uint8Array;
  readonly reason: string;
}

/** Of ten inputs, how many are of which kind. */
const shares: readonly Kind[] = [
  ...(['recording', 'recording', 'clock', 'clock', 'packed', 'recording'] as const),
  ...(['notebook', 'cell', 'notebook', 'cell'] as const),
];

/** Most processor time that an input may take, in ms, and memory that all of them may, in bytes. */
const longest = 5000;
const largest = 2 ** 30;

/**
 * Mutates and judges inputs of all kinds. Each depends on the seed and its index alone.
 * @param from index of the first
 */
export async function fuzz(seed: number, from: number, count: number): Promise<readonly Fall[]> {
  const falls: Fall[] = [];
  const seeds = seedsOf(seed);
  // The most that was ever taken, so that no peak between two looks is missed.
  const atFirst = mostMemory();
  for (let index = from; index < from + count; index++) {
    const random = randomOf(Math.imul(seed, 0x9e3779b1) ^ index);
    const kind = shares[index % shares.length];
    const [one, other] = [0, 1].map(() => seeds[kind][Math.floor(random() * seeds[kind].length)]);
    const bytes = changed(kind, one, other, random);
    const turn = Math.floor(index / shares.length);
    const fall = (reason: string): void => void falls.push({ index, kind, bytes, reason });
    const began = performance.now();
    try {
      await judge(kind, bytes, turn);
    } catch (error) {
      fall(error instanceof Error ? (error.stack ?? error.message) : String(error));
    }
    // The clock on the wall is cheap to read; only what took long by it is tried again by the processor's.
    if (performance.now() - began > longest) {
      const took = await processorTime(() => judge(kind, bytes, turn));
      if (took > longest) fall(`took ${took} ms`);
    }
    if (index % 50 === 0 && mostMemory() - atFirst > largest) fall('took more than 1 GB');
  }
  return falls;
}

/** An input of a kind: with a clock in trouble half of them have no other fault, as one stray byte may hide what a trouble would. */
function changed(kind: Kind, one: Uint8Array, other: Uint8Array, random: () => number): Uint8Array {
  if (kind !== 'clock') return mutated(one, other, random);
  const troubled = withClockTroubles(one, random);
  return random() < 0.5 ? troubled : mutated(troubled, other, random);
}

/** In bytes, since the process began. */
const mostMemory = (): number => 1024 * process.resourceUsage().maxRSS;

/** In ms, of work that may throw. */
async function processorTime(work: () => Promise<void>): Promise<number> {
  const began = process.cpuUsage();
  await work().catch(() => undefined);
  return process.cpuUsage(began).user / 1000;
}
