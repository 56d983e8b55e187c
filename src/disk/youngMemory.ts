import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { isTriedEngine } from './triedEngine.ts';

/** Collections that share their work among threads, which wait for each other where each core has something to do. */
const shared = ['scavenge', 'compaction', 'pointer-update'];

let isKept = false;

/** Bytes of arrays after which what has gone of them is collected: V8 itself waits for 64 MB of them. */
const most = 24e6;
let received = 0;
let collect: (() => void) | undefined;

/**
 * Keeps this process's room for short-lived objects at the 2 MB that it begins with, where V8 would make 32 of it, which
 * a program that goes over one recording after another hardly gains from; and has all memory collected at once, where V8 would begin
 * long before it is full, so that nobody need wait for the whole at a time; each thread by itself. Not for a process that is shared with others.
 */
export function keepYoungMemorySmall(): void {
  isKept = isTriedEngine();
  keptSmall();
  if (!isKept) return;
  setFlagsFromString('--no-incremental-marking');
  for (const work of shared) setFlagsFromString(`--no-parallel-${work}`);
  setFlagsFromString('--expose-gc');
  collect = runInNewContext('gc') as () => void;
  setFlagsFromString('--no-expose-gc');
}

/** Notes that arrays of so many bytes came from a thread, which mostly go again as soon as something was made of them. */
export function noteReceived(bytes: number): void {
  if (collect === undefined || (received += bytes) < most) return;
  received = 0;
  collect();
}

/** To be told after a thread was started, which sets the factor back. */
export function keptSmall(): void {
  if (isKept) setFlagsFromString('--semi-space-growth-factor=1');
}
