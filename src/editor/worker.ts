import { parentPort } from 'node:worker_threads';
import { diskHistory } from '../disk/history.ts';
import { diskHost, unsavedHost } from '../disk/host.ts';
import { Service, type Request } from '../engine/service.ts';

// The engine on a thread of its own, so that a long reading never holds up the editor.
const port = parentPort;
if (port === null) throw new Error('to be started as a worker');
const service = new Service(
  ({ folder, root, saved, history }) => {
    if (saved === false) return unsavedHost();
    return { ...diskHost(folder, root), ...(history === false ? {} : { history: diskHistory(folder) }) };
  },
  (reply) => port.postMessage(reply),
);
port.on('message', (request: Request) => service.receive(request));
