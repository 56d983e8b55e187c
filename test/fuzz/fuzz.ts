import { judge } from './judge.ts';
import { mutated, randomOf } from './mutate.ts';
import { seeds, type Kind } from './seeds.ts';

/** An input that something is wrong with, and what. */
export interface Fall {
  readonly index: number;
  readonly kind: Kind;
  readonly bytes: Uint8Array;
  readonly reason: string;
}

/** Of ten inputs, how many are of which kind. */
const shares: readonly Kind[] = [
  ...(['recording', 'recording', 'recording', 'recording', 'packed'] as const),
  ...(['notebook', 'notebook', 'cell', 'cell', 'cell'] as const),
];

const longest = 5000;
const largest = 2 ** 30;

/**
 * Mutates and judges inputs of all kinds. Each depends on the seed and its index alone.
 * @param from index of the first
 */
export async function fuzz(seed: number, from: number, count: number): Promise<readonly Fall[]> {
  const falls: Fall[] = [];
  const atFirst = process.memoryUsage().rss;
  for (let index = from; index < from + count; index++) {
    const random = randomOf(Math.imul(seed, 0x9e3779b1) ^ index);
    const kind = shares[index % shares.length];
    const [one, other] = [0, 1].map(() => seeds[kind][Math.floor(random() * seeds[kind].length)].bytes);
    const bytes = mutated(one, other, random);
    const fall = (reason: string): void => void falls.push({ index, kind, bytes, reason });
    const began = process.cpuUsage();
    try {
      await judge(kind, bytes, index / shares.length);
    } catch (error) {
      fall(error instanceof Error ? (error.stack ?? error.message) : String(error));
    }
    const { user } = process.cpuUsage(began);
    if (user / 1000 > longest) fall(`took ${user / 1000} ms`);
    if (process.memoryUsage.rss() - atFirst > largest) fall('took more than 1 GB');
  }
  return falls;
}
