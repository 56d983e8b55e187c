import { Worker } from 'node:worker_threads';
import type { Said, StartEngine } from '../engineProgram.ts';
import { errorOf } from '../messages.ts';

/** Starts an engine in a thread. @param script absolute path of the worker's bundle */
export const engineIn =
  (script: string): StartEngine =>
  (listener) => {
    const worker = new Worker(script);
    worker.on('message', (message: Said) => listener.said(message));
    worker.on('error', (error) => listener.lost(error));
    worker.on('exit', (exitCode) => listener.lost(errorOf('engine.ended', { exitCode })));
    return { tell: (message) => worker.postMessage(message), end: () => worker.terminate() };
  };
