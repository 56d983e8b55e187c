import { Worker } from 'node:worker_threads';
import type { ReadWatch } from '../readers/recording.ts';
import { RowsBeside, sharedMemory, type StartBeside } from '../readers/text/rowsBeside.ts';
import type { Reading, ReadingTask } from './readRecording.ts';
import type { ThreadReply, ThreadRequest } from './readingThread.ts';

/** A reading that is asked for, and who waits for it. */
interface Job {
  readonly task: ReadingTask;
  readonly watch: ReadWatch;
  readonly stop: SharedArrayBuffer;
  readonly done: (reading: Reading) => void;
  readonly fail: (error: Error) => void;
}

/** How often it is looked whether anybody still waits, in ms. */
const pace = 100;

/** Threads that read recordings, each one at a time; started as they are needed, and no reason for a process to go on. */
export class ReadingThreads {
  /** How many there are at most. */
  readonly count: number;
  readonly #script: string;
  readonly #queue: Job[] = [];
  readonly #idle: Worker[] = [];
  readonly #working = new Map<Worker, { readonly id: number; readonly job: Job | undefined }>();
  #started = 0;
  #next = 1;
  #clock: NodeJS.Timeout | undefined;

  /** @param script absolute path of the thread's program @param count at least 1 */
  constructor(script: string, count: number) {
    this.#script = script;
    this.count = count;
  }

  read(task: ReadingTask, watch: ReadWatch): Promise<Reading> {
    return new Promise((done, fail) => {
      this.#queue.push({ task, watch, stop: new SharedArrayBuffer(4), done, fail });
      this.#assign();
    });
  }

  /** Has a thread read rows beside this one; undefined where all have something to do. */
  readonly beside: StartBeside = (plan) => {
    const worker = this.#idle.pop() ?? this.#start();
    if (worker === undefined) return undefined;
    const shared = sharedMemory(plan.kinds.length);
    const rows = new RowsBeside(shared, plan.kinds.length);
    const id = this.#next++;
    this.#working.set(worker, { id, job: undefined });
    const request: ThreadRequest = { id, rows: shared, plan };
    worker.postMessage(request);
    // Nobody waits for it: what it does not read is read here.
    worker.unref();
    return rows;
  };

  /** Ends all threads; what they were asked for fails. */
  async dispose(): Promise<void> {
    const all = [...this.#idle, ...this.#working.keys()];
    await Promise.all(all.map((worker) => worker.terminate()));
  }

  #assign(): void {
    while (this.#queue.length > 0) {
      const worker = this.#idle.pop() ?? this.#start();
      if (worker === undefined) return;
      const job = this.#queue.shift()!;
      const id = this.#next++;
      this.#working.set(worker, { id, job });
      worker.ref();
      this.#clock ??= setInterval(() => this.#stopUnwanted(), pace);
      const request: ThreadRequest = { id, task: job.task, stop: job.stop };
      worker.postMessage(request);
      this.#stopUnwanted();
    }
  }

  #start(): Worker | undefined {
    if (this.#started === this.count) return undefined;
    this.#started++;
    const worker = new Worker(this.#script);
    worker.on('message', (reply: ThreadReply) => this.#receive(worker, reply));
    worker.on('error', (error) => this.#lose(worker, error));
    worker.on('exit', (code) => this.#lose(worker, new Error(`a reading thread ended with code ${code}`)));
    return worker;
  }

  #receive(worker: Worker, reply: ThreadReply): void {
    const working = this.#working.get(worker);
    if (working?.id !== reply.id) return;
    const { job } = working;
    if (reply.type === 'progress') return job?.watch.progress(reply.fraction);
    this.#working.delete(worker);
    worker.unref();
    this.#idle.push(worker);
    this.#assign();
    this.#rest();
    if (reply.type === 'read') job?.done(reply.reading);
    else if (reply.type === 'failed') job?.fail(new Error(reply.message));
  }

  /** A thread that died fails what it was asked; another is started for the next. */
  #lose(worker: Worker, error: Error): void {
    const working = this.#working.get(worker);
    const idle = this.#idle.indexOf(worker);
    if (working === undefined && idle < 0) return;
    this.#started--;
    this.#working.delete(worker);
    if (idle >= 0) this.#idle.splice(idle, 1);
    this.#assign();
    this.#rest();
    working?.job?.fail(error);
  }

  #rest(): void {
    if (this.#working.size > 0) return;
    clearInterval(this.#clock);
    this.#clock = undefined;
  }

  #stopUnwanted(): void {
    for (const { job } of this.#working.values())
      if (job?.watch.cancelled()) Atomics.store(new Int32Array(job.stop), 0, 1);
  }
}
