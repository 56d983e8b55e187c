import { Worker } from 'node:worker_threads';
import type { CellKeys } from '../engine/result.ts';
import type { NotebookFacts, NotebookPlace, Reply, Request } from '../engine/service.ts';
import type { Output } from '../charts/output.ts';

export interface CellRun {
  readonly ok: boolean;
  readonly cancelled: boolean;
  /** Content keys of the cells that `keyed` named. */
  readonly keys: CellKeys;
}

/** One cell of a notebook, to be run. */
export interface RunOrder {
  readonly notebook: NotebookPlace;
  readonly cells: readonly string[];
  readonly cell: number;
  /** The cells whose content keys are to come with the answer. */
  readonly keyed: readonly number[];
}

export interface RunListener {
  /** The line is the statement's, within its cell. */
  output(output: Output, line: number): void;
  progress(fraction: number, what: string): void;
}

interface Pending {
  receive(reply: Reply): void;
  fail(error: Error): void;
}

/** The engine in its worker thread. A thread that dies fails what it was asked and is started anew. */
export class EngineThread {
  readonly #script: string;
  readonly #pending = new Map<number, Pending>();
  #worker: Worker | undefined;
  #next = 1;

  /** @param script absolute path of the worker's bundle */
  constructor(script: string) {
    this.#script = script;
  }

  /** Runs one cell and what it needs. */
  run(
    { notebook, cells, cell, keyed }: RunOrder,
    listener: RunListener,
    onStop: (stop: () => void) => void,
  ): Promise<CellRun> {
    const id = this.#next++;
    const stop = new SharedArrayBuffer(4);
    onStop(() => Atomics.store(new Int32Array(stop), 0, 1));
    return new Promise((done, reject) => {
      this.#ask({ type: 'run', id, notebook, cells, wanted: [cell], keyed, stop }, id, {
        receive: (reply) => {
          if (reply.type === 'output') listener.output(reply.output, reply.line);
          else if (reply.type === 'progress') listener.progress(reply.fraction, reply.what);
          else if (reply.type === 'done') done(reply);
        },
        fail: reject,
      });
    });
  }

  /** Content keys of cells, as a run would give them with its answer. */
  keys(notebook: NotebookPlace, cells: readonly string[], keyed: readonly number[]): Promise<CellKeys> {
    const id = this.#next++;
    return new Promise((done, reject) => {
      this.#ask({ type: 'keys', id, notebook, cells, keyed }, id, {
        receive: (reply) => {
          if (reply.type === 'keys') done(reply.keys);
        },
        fail: reject,
      });
    });
  }

  /** What a first look at files shows, as lines of text. */
  look(notebook: NotebookPlace, paths: readonly string[]): Promise<readonly string[]> {
    const id = this.#next++;
    return new Promise((done, reject) => {
      this.#ask({ type: 'look', id, notebook, paths }, id, {
        receive: (reply) => {
          if (reply.type === 'look') done(reply.lines);
        },
        fail: reject,
      });
    });
  }

  /** What is known, without long work, of a notebook's names and of some of its files. */
  facts(notebook: NotebookPlace, cells: readonly string[], files: readonly string[] = []): Promise<NotebookFacts> {
    const id = this.#next++;
    return new Promise((done, reject) => {
      this.#ask({ type: 'facts', id, notebook, cells, files }, id, {
        receive: (reply) => {
          if (reply.type === 'facts') done(reply);
        },
        fail: reject,
      });
    });
  }

  /** Forgets the values of a folder's notebooks; what is asked again is computed again. */
  clear(notebook: NotebookPlace): void {
    const request: Request = { type: 'clear', notebook };
    this.#worker?.postMessage(request);
  }

  /** Ends the thread: everything it knows is forgotten. */
  async dispose(): Promise<void> {
    const worker = this.#worker;
    this.#worker = undefined;
    await worker?.terminate();
    this.#failAll(new Error('The engine was stopped.'));
  }

  #ask(request: Request, id: number, pending: Pending): void {
    this.#pending.set(id, pending);
    this.#started().postMessage(request);
  }

  #started(): Worker {
    if (this.#worker !== undefined) return this.#worker;
    const worker = new Worker(this.#script);
    worker.on('message', (reply: Reply) => {
      const pending = this.#pending.get(reply.id);
      if (reply.type !== 'output' && reply.type !== 'progress') this.#pending.delete(reply.id);
      if (reply.type === 'failed') pending?.fail(new Error(reply.message));
      else pending?.receive(reply);
    });
    const lost = (error: Error): void => {
      if (this.#worker !== worker) return;
      this.#worker = undefined;
      this.#failAll(error);
    };
    worker.on('error', lost);
    worker.on('exit', (code) =>
      lost(new Error(`The engine ended unexpectedly (code ${code}); running the cell again starts it anew.`)),
    );
    this.#worker = worker;
    return worker;
  }

  #failAll(error: Error): void {
    const waiting = [...this.#pending.values()];
    this.#pending.clear();
    for (const pending of waiting) pending.fail(error);
  }
}
