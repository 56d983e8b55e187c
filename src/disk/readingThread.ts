import { parentPort, workerData } from 'node:worker_threads';
import { readBeside } from '../readers/text/rowsBeside.ts';
import { begunAhead, type ThreadReply, type ThreadRequest } from './readingAsked.ts';

const port = parentPort;
if (port === null) throw new Error('to be started as a worker');
const reply = (message: ThreadReply): void => port.postMessage(message);

/** What was asked for before: memory is taken back behind each, so that nothing may begin in between. */
let before: Promise<void> = Promise.resolve();

port.on('message', (request: ThreadRequest) => {
  before = before.then(() => take(request));
});

/** A thread that reads beside another starts without all that. */
const whole = (): Promise<typeof import('./readingWork.ts')> => import('./readingWork.ts');
// One that was begun before it was asked for anything has the time.
if (workerData === begunAhead) void whole();

async function take(request: ThreadRequest): Promise<void> {
  const { id } = request;
  switch (request.type) {
    case 'beside':
      readBeside(request.rows, request.plan);
      return reply({ id, type: 'let go' });
    case 'read':
    case 'density': {
      const { work } = await whole();
      return work(id, request, reply);
    }
  }
}
