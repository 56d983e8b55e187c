import { Worker } from 'node:worker_threads';
import type { Reply, Request } from '../engine/service.ts';
import { errorOf, sentence } from './messages.ts';

/** Who waits for the replies to a request. */
export interface Pending {
  receive(reply: Reply): void;
  fail(error: Error): void;
}

/** The engine was ended by hand: what was asked of it is not answered, and nobody has to be told so. */
export class EngineEnded extends Error {}

/** An engine in a worker thread, started when it is first asked. A thread that dies fails what it was asked and is started anew. */
export class EngineThread {
  readonly #script: string;
  readonly #pending = new Map<number, Pending & { readonly notebook: string | undefined }>();
  #worker: Worker | undefined;
  #retired = false;

  /** @param script absolute path of the worker's bundle */
  constructor(script: string) {
    this.#script = script;
  }

  /** How many requests wait for their answer. */
  get waiting(): number {
    return this.#pending.size;
  }

  /** Whether something of another notebook waits for its answer. */
  busyFor(notebook: string): boolean {
    return [...this.#pending.values()].some((one) => one.notebook !== notebook);
  }

  ask(request: Exclude<Request, { type: 'clear' }>, pending: Pending): void {
    this.#pending.set(request.id, { ...pending, notebook: request.notebook.notebook });
    this.#started().postMessage(request);
  }

  /** Tells what has no answer; a thread that is not running has nothing to be told. */
  tell(request: Extract<Request, { type: 'clear' }>): void {
    this.#worker?.postMessage(request);
  }

  /** Ends the thread at once: what it was asked fails, and everything it knows is forgotten. */
  async dispose(): Promise<void> {
    const worker = this.#worker;
    this.#worker = undefined;
    await worker?.terminate();
    this.#failAll(new EngineEnded(sentence('engine.stopped', {})));
  }

  /** Ends the thread as soon as nothing waits for it. */
  retire(): void {
    this.#retired = true;
    this.#restIfRetired();
  }

  #restIfRetired(): void {
    if (this.#retired && this.#pending.size === 0) void this.dispose();
  }

  #started(): Worker {
    if (this.#worker !== undefined) return this.#worker;
    const worker = new Worker(this.#script);
    worker.on('message', (reply: Reply) => {
      const pending = this.#pending.get(reply.id);
      if (!['output', 'cell', 'progress'].includes(reply.type)) this.#pending.delete(reply.id);
      if (reply.type === 'failed') pending?.fail(new Error(reply.message));
      else pending?.receive(reply);
      this.#restIfRetired();
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
