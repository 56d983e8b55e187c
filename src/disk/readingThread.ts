import { parentPort } from 'node:worker_threads';
import { reuseMemory, takeMemoryBack } from '../readers/reusedMemory.ts';
import type { Reading, ReadingTask } from './readRecording.ts';
import { readBeside, type SharedPlan, type SharedRows } from '../readers/text/rowsBeside.ts';
import type { Density } from '../signal/welch.ts';
import type { WantedDensity } from '../values/ports.ts';

/** What a thread is asked. */
export type ThreadRequest = { readonly id: number } & (
  | ThreadTask
  /** To read rows beside another thread until it lets go. */
  | { readonly type: 'beside'; readonly rows: SharedRows; readonly plan: SharedPlan }
);

/** To read a recording (`stop` is one shared integer, not 0 once nobody waits for the answer), or for a density. */
export type ThreadTask =
  | { readonly type: 'read'; readonly task: ReadingTask; readonly stop: SharedArrayBuffer }
  | { readonly type: 'density'; readonly wanted: WantedDensity };

export type ThreadReply =
  | { readonly id: number; readonly type: 'progress'; readonly fraction: number }
  | { readonly id: number; readonly type: 'read'; readonly reading: Reading }
  | { readonly id: number; readonly type: 'density'; readonly density: Density }
  | { readonly id: number; readonly type: 'let go' }
  | { readonly id: number; readonly type: 'failed'; readonly message: string };

const port = parentPort;
if (port === null) throw new Error('to be started as a worker');
reuseMemory();
const reply = (message: ThreadReply): void => port.postMessage(message);

port.on('message', (request: ThreadRequest) => {
  const { id } = request;
  switch (request.type) {
    case 'beside':
      readBeside(request.rows, request.plan);
      takeMemoryBack();
      return reply({ id, type: 'let go' });
    case 'read':
    case 'density':
      // A thread that reads beside another starts without all that.
      return void import('./readingWork.ts').then(({ work }) => work(id, request, reply));
  }
});
