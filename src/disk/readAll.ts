import { statSync } from 'node:fs';
import type { ReadWatch } from '../readers/recording.ts';
import type { ReadRecording, Watch } from '../values/ports.ts';
import type { Identities } from './identities.ts';
import { readRecording, type Reading, type ReadingTask } from './readRecording.ts';
import type { ReadingThreads } from './readingThreads.ts';

/** Bytes from which several recordings are worth the start of threads. */
const worthThreads = 4e6;

/** Bytes from which one recording is worth a second thread that reads beside this one. */
const worthBeside = 16e6;

/** Reads recordings, each answer by itself and all in the order of the tasks. */
export type RecordingReader = (
  tasks: readonly ReadingTask[],
  watch: Watch,
  identities: Identities,
) => Promise<ReadRecording>[];

/** Reads in these threads where that is worth their start, else in this one. */
export const readerIn =
  (threads: ReadingThreads | undefined): RecordingReader =>
  (tasks, watch, identities) => {
    let done = 0;
    const watched = ({ path }: ReadingTask): ReadWatch => ({
      cancelled: watch.cancelled,
      progress: (fraction) => watch.progress((done + fraction) / tasks.length, `reading ${path}`),
    });
    const finished = ({ absolute, path }: ReadingTask, { stamp, ...read }: Reading): ReadRecording => {
      watch.progress(++done / tasks.length, `reading ${path}`);
      if (stamp !== undefined && read.identity !== undefined) identities.learn(absolute, stamp, read.identity);
      return read;
    };
    if (threads !== undefined && threads.count > 1 && tasks.length > 1 && bytesOf(tasks, worthThreads) > worthThreads)
      return tasks.map(async (task) => finished(task, await threads.read(task, watched(task))));
    const { beside, expectBeside } = threads !== undefined && threads.count > 1 ? threads : {};
    const aided = (task: ReadingTask): ReadWatch => ({
      ...watched(task),
      ...(bytesOf([task], worthBeside) > worthBeside ? { beside, expectBeside } : {}),
    });
    let before: Promise<unknown> = Promise.resolve();
    return tasks.map((task) => {
      const reading = before.then(async () => finished(task, await readRecording(task, aided(task))));
      before = reading.catch(() => undefined);
      return reading;
    });
  };

/** Bytes of the files, as far as they can be told, counted until there are enough. */
function bytesOf(tasks: readonly ReadingTask[], enough: number): number {
  let sum = 0;
  for (const { absolute } of tasks) {
    sum += statSync(absolute, { throwIfNoEntry: false })?.size ?? 0;
    if (sum > enough) break;
  }
  return sum;
}
