import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { cacheFolder, packsIn } from '../disk/cacheFolder.ts';
import { beginWorker } from '../disk/readingWorkers.ts';
import { readingProgram } from './readingProgram.ts';

/** Commands that read all recordings of a notebook, those that do so whatever was kept of them, and those that take what was. */
const anew: readonly string[] = ['record', 'verify', 'changed'];
const keeping: readonly string[] = ['run', 'report', 'figures', 'tables', 'numbers'];

/** Threads that are begun, at most: how many recordings there are is not known yet. */
const most = 2;

/**
 * Begins the threads that a command will probably ask for, while this thread loads the rest of the program: both take about as long.
 * They are begun when they are asked for, as late as that is, where it is told how many there may be, and where results were kept
 * before: the recordings may not be read at all then.
 */
export function beginReading([command = '', ...args]: readonly string[]): void {
  const count = Math.min(most, availableParallelism());
  const script = readingProgram();
  if (count === 1 || script === undefined || args.some((one) => /^--(jobs|cache|help)/.test(one))) return;
  const isAnew = anew.includes(command) || (keeping.includes(command) && args.includes('--no-cache'));
  if (isAnew || (keeping.includes(command) && !isAnyKept())) for (let i = 0; i < count; i++) beginWorker(script);
}

function isAnyKept(): boolean {
  const engine = process.env.WASHBOARD_ENGINE ?? '';
  return engine !== '' && existsSync(packsIn(cacheFolder(), engine));
}
