import { Worker } from 'node:worker_threads';
import type { CellKeys } from '../engine/result.ts';
import type { Moved, MoveOrder } from '../engine/moving.ts';
import type { AskedNumber } from '../engine/proseNumbers.ts';
import type { NotebookFacts, NumbersAnswer, ProjectFolders, Reply, Request } from '../engine/service.ts';
import type { LookAt } from '../engine/traces.ts';
import type { Output } from '../charts/output.ts';
import type { Json } from '../values/json.ts';
import { errorOf, sentence } from './messages.ts';

export interface CellRun {
  readonly ok: boolean;
  readonly cancelled: boolean;
  /** Content keys of the cells that `keyed` named. */
  readonly keys: CellKeys;
}

/** One cell of a notebook, to be run. */
export interface RunOrder {
  readonly notebook: ProjectFolders;
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

/** The engine was ended by hand: what was asked of it is not answered, and nobody has to be told so. */
export class EngineEnded extends Error {}

/** After how many ms a run that is to stop counts as stopped, whatever long step the engine is still in. */
const stopWithin = 150;

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
    return new Promise((done, reject) => {
      onStop(() => {
        Atomics.store(new Int32Array(stop), 0, 1);
        setTimeout(() => done({ ok: false, cancelled: true, keys: new Map() }), stopWithin);
      });
      this.#ask({ type: 'run', id, notebook, cells, wanted: [cell], keyed, stop }, id, {
        receive: (reply) => {
          // What still comes of a run that counts as stopped is not shown.
          if (Atomics.load(new Int32Array(stop), 0) !== 0 && reply.type !== 'done') return;
          if (reply.type === 'output') listener.output(reply.output, reply.line);
          else if (reply.type === 'progress') listener.progress(reply.fraction, reply.what);
          else if (reply.type === 'done') done(reply);
        },
        fail: reject,
      });
    });
  }

  /** Content keys of cells, as a run would give them with its answer. */
  async keys(notebook: ProjectFolders, cells: readonly string[], keyed: readonly number[]): Promise<CellKeys> {
    return (await this.#answer('keys', { notebook, cells, keyed })).keys;
  }

  /** What a first look at files shows. */
  async look(notebook: ProjectFolders, paths: readonly string[]): Promise<readonly LookAt[]> {
    return (await this.#answer('look', { notebook, paths })).looks;
  }

  /** The text of a notebook that begins with recordings. @param besides all files of their folders */
  async starter(notebook: ProjectFolders, paths: readonly string[], besides: readonly string[]): Promise<string> {
    return (await this.#answer('starter', { notebook, paths, besides })).text;
  }

  /** What is known, without long work, of a notebook's names and of some of its files. */
  facts(notebook: ProjectFolders, cells: readonly string[], files: readonly string[] = []): Promise<NotebookFacts> {
    return this.#answer('facts', { notebook, cells, files });
  }

  /** The whole notebook's results as the JSON that a record is made of; undefined if it was stopped. */
  async document(
    notebook: ProjectFolders,
    file: string,
    cells: readonly string[],
    onStop: (stop: () => void) => void,
  ): Promise<Json | undefined> {
    const stop = new SharedArrayBuffer(4);
    onStop(() => Atomics.store(new Int32Array(stop), 0, 1));
    return (await this.#answer('document', { notebook, file, cells, stop })).document;
  }

  /** What a moved literal makes of the text, and of some cells if they were run on it. */
  move(notebook: ProjectFolders, order: MoveOrder): Promise<Moved> {
    return this.#answer('move', { notebook, ...order });
  }

  /** What is known of the numbers in a notebook's prose, without long work. */
  numbers(notebook: ProjectFolders, cells: readonly string[], numbers: readonly AskedNumber[]): Promise<NumbersAnswer> {
    return this.#answer('numbers', { notebook, cells, numbers });
  }

  /** Forgets the values of a folder's notebooks; what is asked again is computed again. */
  clear(notebook: ProjectFolders): void {
    const request: Request = { type: 'clear', notebook };
    this.#worker?.postMessage(request);
  }

  /** Ends the thread: everything it knows is forgotten. */
  async dispose(): Promise<void> {
    const worker = this.#worker;
    this.#worker = undefined;
    await worker?.terminate();
    this.#failAll(new EngineEnded(sentence('engine.stopped', {})));
  }

  /** Asks what has one reply, of the same type. */
  #answer<Type extends 'keys' | 'look' | 'starter' | 'facts' | 'document' | 'move' | 'numbers'>(
    type: Type,
    rest: Omit<Extract<Request, { type: Type }>, 'type' | 'id'>,
  ): Promise<Extract<Reply, { type: Type }>> {
    const id = this.#next++;
    return new Promise((done, reject) => {
      this.#ask({ type, id, ...rest } as Extract<Request, { type: Type }>, id, {
        receive: (reply) => {
          if (reply.type === type) done(reply as Extract<Reply, { type: Type }>);
        },
        fail: reject,
      });
    });
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
    worker.on('exit', (exitCode) => lost(errorOf('engine.ended', { exitCode })));
    this.#worker = worker;
    return worker;
  }

  #failAll(error: Error): void {
    const waiting = [...this.#pending.values()];
    this.#pending.clear();
    for (const pending of waiting) pending.fail(error);
  }
}
