import { availableParallelism } from 'node:os';
import { ReadingThreads } from '../disk/readingThreads.ts';
import { success, type Result } from '../result/result.ts';
import { readingProgram } from './readingProgram.ts';
import { refuse } from './messages.ts';

/** Most threads that can be asked for. */
const most = 64;

/** Those that were started, by their number: notebooks that are run after each other share them. */
const made = new Map<number, ReadingThreads>();

/** The threads that read recordings, as many as `--jobs` says, else one a core; none where this thread reads by itself. */
export function threadsOf(jobs: string | undefined): Result<ReadingThreads | undefined> {
  if (jobs !== undefined && !(/^\d+$/.test(jobs) && Number(jobs) >= 1 && Number(jobs) <= most))
    return refuse('usage.jobs', { given: jobs, most });
  const count = jobs === undefined ? Math.min(most, availableParallelism()) : Number(jobs);
  const script = readingProgram();
  if (count === 1 || script === undefined) return success(undefined);
  const threads = made.get(count) ?? new ReadingThreads(script, count);
  made.set(count, threads);
  return success(threads);
}
