import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parentPort } from 'node:worker_threads';
import { digest } from '../../disk/bytes.ts';
import { cacheFolder } from '../../disk/cacheFolder.ts';
import { diskHistory } from '../../disk/history.ts';
import { AskedFiles } from '../../disk/asked.ts';
import { editorHost, unsavedHost } from '../../disk/editorHost.ts';
import { diskHost } from '../../disk/host.ts';
import { KeptStore } from '../../disk/keptStore.ts';
import { ReadingThreads } from '../../disk/readingThreads.ts';
import { Service } from '../../engine/service.ts';
import type { Told } from '../engineProgram.ts';

// The engine on a thread of its own, so that a long reading never holds up the editor.
const port = parentPort;
if (port === null) throw new Error('to be started as a worker');
// One core is left to the editor.
const count = availableParallelism() - 1;
const script = fileURLToPath(new URL('./reading.cjs', import.meta.url));
const threads = count > 1 ? new ReadingThreads(script, count) : undefined;
const engine = process.env.WASHBOARD_ENGINE ?? '';
const kept = engine === '' ? undefined : new KeptStore(cacheFolder(), engine);
const asked = new AskedFiles((ask) => port.postMessage(ask));
const service = new Service(
  ({ folder, root, saved, history, base }) => {
    if (saved === false) return unsavedHost(digest);
    if (base !== undefined) return editorHost(asked.at(base), folder, root);
    const host = diskHost(folder, root, { threads, kept });
    return { ...host, ...(history === false ? {} : { history: diskHistory(folder) }) };
  },
  (reply) => port.postMessage(reply),
);
port.on('message', (message: Told) => {
  if (message.type === 'files') asked.receive(message);
  else service.receive(message);
});
