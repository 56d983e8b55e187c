import * as vscode from 'vscode';
import type { EngineProgram, Listener, Said, StartEngine, Told } from '../engineProgram.ts';
import { linked } from './linked.ts';

/** The engine's module, as `worker.ts` has it. */
interface EngineModule {
  readonly serve: (say: (message: Said) => void) => (message: Told) => void;
}

/** Loads a module by its address, which no bundler may take for one of its own. */
const load = new Function('address', 'return import(address)') as (address: string) => Promise<EngineModule>;

/** The program of a worker that runs the module at an address; what it is told before that is loaded waits. */
const programOf = (address: string): string => `
  const early = [];
  onmessage = ({ data }) => early.push(data);
  import(${JSON.stringify(address)}).then(
    ({ serve }) => {
      const receive = serve((message) => postMessage(message));
      onmessage = ({ data }) => receive(data);
      early.forEach(receive);
    },
    (error) => setTimeout(() => { throw error; }),
  );`;

/** Starts an engine in a worker of the browser, or, where none may be made, beside the extension in its own. @param dist folder of its files */
export function engineFrom(dist: vscode.Uri): StartEngine {
  let address: Promise<string> | undefined;
  return (listener) => {
    address ??= linked(dist, 'webWorker.mjs');
    const started = address.then((found) => programAt(found, listener));
    let isEnded = false;
    started.catch((error: unknown) => {
      address = undefined;
      if (!isEnded) listener.lost(error instanceof Error ? error : new Error(String(error)));
    });
    return {
      tell: (message) => void started.then((program) => program.tell(message)).catch(() => undefined),
      end: () => {
        isEnded = true;
        return started.then((program) => program.end()).catch(() => undefined);
      },
    };
  };
}

async function programAt(address: string, listener: Listener): Promise<EngineProgram> {
  let worker: Worker;
  try {
    const program = new Blob([programOf(address)], { type: 'text/javascript' });
    worker = new Worker(URL.createObjectURL(program), { name: 'Washboard' });
  } catch {
    return beside(address, listener);
  }
  worker.onmessage = ({ data }) => listener.said(data as Said);
  worker.onerror = ({ message }) => listener.lost(new Error(message ?? 'the browser ended it'));
  return {
    // A file's bytes are handed over: nobody needs them here.
    tell: (message) => worker.postMessage(message, bytesIn(message)),
    end: () => {
      worker.terminate();
      return Promise.resolve();
    },
  };
}

async function beside(address: string, listener: Listener): Promise<EngineProgram> {
  let isEnded = false;
  const { serve } = await load(address);
  const receive = serve((message) => {
    if (!isEnded) listener.said(message);
  });
  return {
    tell: receive,
    end: () => {
      isEnded = true;
      return Promise.resolve();
    },
  };
}

function bytesIn(message: Told): ArrayBuffer[] {
  if (message.type !== 'files' || typeof message.answer !== 'object' || !('bytes' in message.answer)) return [];
  return [message.answer.bytes.buffer as ArrayBuffer];
}
