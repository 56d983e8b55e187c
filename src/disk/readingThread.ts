import { parentPort } from 'node:worker_threads';
import { reuseMemory, takeMemoryBack } from '../readers/reusedMemory.ts';
import { readBeside } from '../readers/text/rowsBeside.ts';
import type { ThreadReply, ThreadRequest } from './readingAsked.ts';

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
