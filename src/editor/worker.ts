import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parentPort } from 'node:worker_threads';
import { diskHistory } from '../disk/history.ts';
import { diskHost, unsavedHost } from '../disk/host.ts';
import { cacheFolder, KeptStore } from '../disk/keptStore.ts';
import { ReadingThreads } from '../disk/readingThreads.ts';
import { Service, type Request } from '../engine/service.ts';

// The engine on a thread of its own, so that a long reading never holds up the editor.
const port = parentPort;
if (port === null) throw new Error('to be started as a worker');
// One core is left to the editor.
const count = availableParallelism() - 1;
const script = fileURLToPath(new URL('./reading.mjs', import.meta.url));
const threads = count > 1 ? new ReadingThreads(script, count) : undefined;
const engine = process.env.WASHBOARD_ENGINE ?? '';
const kept = engine === '' ? undefined : new KeptStore(cacheFolder(), engine);
const service = new Service(
  ({ folder, root, saved, history }) => {
    if (saved === false) return unsavedHost();
    const host = diskHost(folder, root, { threads, kept });
    return { ...host, ...(history === false ? {} : { history: diskHistory(folder) }) };
  },
  (reply) => port.postMessage(reply),
);
port.on('message', (request: Request) => service.receive(request));
