import type { Worker } from 'node:worker_threads';
import type { ReadWatch } from '../readers/recording.ts';
import { RowsBeside, type StartBeside } from '../readers/text/rowsBeside.ts';
import { unwatched } from '../readers/read.ts';
import type { Density } from '../signal/welch.ts';
import type { WantedDensity } from '../values/ports.ts';
import { noteReceived } from './youngMemory.ts';
import { startedWorker } from './readingWorkers.ts';
import type { Reading, ReadingTask } from './readRecording.ts';
import type { ThreadReply, ThreadRequest, ThreadTask } from './readingAsked.ts';

/** What a thread is asked for, and who waits for it. */
interface Job {
  readonly task: ThreadTask;
  readonly watch: ReadWatch;
  readonly done: (reply: ThreadReply) => void;
  readonly fail: (error: Error) => void;
}

/** What a thread was asked for; rows that it reads beside another are no job. */
interface Asked {
  readonly id: number;
  readonly job: Job | undefined;
}

/** While so many jobs a thread wait, each is asked for one more than it works on, so that it need not wait for the next. */
const plenty = 4;

/** How often it is looked whether anybody still waits, in ms. */
const pace = 100;

/** Threads that read recordings, and make densities, each one at a time and in the order in which it is asked; started as they are needed, and no reason for a process to go on. */
export class ReadingThreads {
  /** How many there are at most. */
  readonly count: number;
  readonly #script: string;
  readonly #queue: Job[] = [];
  readonly #idle: Worker[] = [];
  /** Of each thread at work what it was asked for, in order. */
  readonly #working = new Map<Worker, Asked[]>();
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
      const answered = (reply: ThreadReply): void => void (reply.type === 'read' && done(reply.reading));
      this.#ask({ task: { type: 'read', task, stop: new SharedArrayBuffer(4) }, watch, done: answered, fail });
    });
  }

  /** A density as `welchDensity` makes it. */
  density(wanted: WantedDensity): Promise<Density> {
    return new Promise((done, fail) => {
      const answered = (reply: ThreadReply): void => void (reply.type === 'density' && done(reply.density));
      this.#ask({ task: { type: 'density', wanted }, watch: unwatched, done: answered, fail });
    });
  }

  #ask(job: Job): void {
    this.#queue.push(job);
    this.#assign();
  }

  /** Has a thread read rows beside this one; undefined where all have something to do. */
  readonly beside: StartBeside = (plan, capacity) => {
    if (this.#idle.length === 0 && this.#started === this.count) return undefined;
    const rows = RowsBeside.of(plan, capacity);
    const worker = rows && (this.#idle.pop() ?? this.#start());
    if (rows === undefined || worker === undefined) return undefined;
    const id = this.#next++;
    this.#working.set(worker, [{ id, job: undefined }]);
    const request: ThreadRequest = { id, type: 'beside', rows: rows.shared, plan };
    worker.postMessage(request);
    // Nobody waits for it: what it does not read is read here.
    worker.unref();
    return rows;
  };

  /** Starts a thread that may soon be asked to read beside this one. */
  readonly expectBeside = (): void => {
    const worker = this.#idle.length === 0 ? this.#start() : undefined;
    worker?.unref();
    if (worker !== undefined) this.#idle.push(worker);
  };

  /** Ends all threads; what they were asked for fails. */
  async dispose(): Promise<void> {
    const all = [...this.#idle, ...this.#working.keys()];
    await Promise.all(all.map((worker) => worker.terminate()));
  }

  #assign(): void {
    while (this.#queue.length > 0) {
      const worker = this.#idle.pop() ?? this.#start() ?? this.#nextToIdle();
      if (worker === undefined) return;
      const job = this.#queue.shift()!;
      const id = this.#next++;
      const before = this.#working.get(worker) ?? [];
      this.#working.set(worker, [...before, { id, job }]);
      worker.ref();
      this.#clock ??= setInterval(() => this.#stopUnwanted(), pace);
      const request: ThreadRequest = { id, ...job.task };
      worker.postMessage(request);
      this.#stopUnwanted();
    }
  }

  /** A thread that works on its last job, while many wait. */
  #nextToIdle(): Worker | undefined {
    if (this.#queue.length < plenty * this.count) return undefined;
    for (const [worker, asked] of this.#working) if (asked.length === 1 && asked[0].job !== undefined) return worker;
    return undefined;
  }

  #start(): Worker | undefined {
    if (this.#started === this.count) return undefined;
    this.#started++;
    const worker = startedWorker(this.#script);
    worker.on('message', (reply: ThreadReply) => this.#receive(worker, reply));
    worker.on('error', (error) => this.#lose(worker, error));
    worker.on('exit', (code) => this.#lose(worker, new Error(`a reading thread ended with code ${code}`)));
    return worker;
  }

  #receive(worker: Worker, reply: ThreadReply): void {
    const asked = this.#working.get(worker) ?? [];
    const one = asked.find(({ id }) => id === reply.id);
    if (one === undefined) return;
    const { job } = one;
    if (reply.type === 'progress') return job?.watch.progress(reply.fraction);
    const rest = asked.filter((other) => other !== one);
    if (rest.length > 0) this.#working.set(worker, rest);
    else {
      this.#working.delete(worker);
      worker.unref();
      this.#idle.push(worker);
    }
    this.#assign();
    this.#rest();
    if (reply.type === 'read') noteReceived(bytesOf(reply.reading));
    if (reply.type === 'failed') job?.fail(new Error(reply.message));
    else job?.done(reply);
  }

  /** A thread that died fails what it worked on; another is started for the next. */
  #lose(worker: Worker, error: Error): void {
    const all = this.#working.get(worker);
    const [asked, ...behind] = all ?? [undefined];
    const idle = this.#idle.indexOf(worker);
    if (all === undefined && idle < 0) return;
    this.#started--;
    this.#working.delete(worker);
    if (idle >= 0) this.#idle.splice(idle, 1);
    this.#queue.unshift(...behind.flatMap((one) => one?.job ?? []));
    this.#assign();
    this.#rest();
    asked?.job?.fail(error);
  }

  #rest(): void {
    if (this.#working.size > 0) return;
    clearInterval(this.#clock);
    this.#clock = undefined;
  }

  #stopUnwanted(): void {
    for (const { job } of [...this.#working.values()].flat())
      if (job?.task.type === 'read' && job.watch.cancelled()) Atomics.store(new Int32Array(job.task.stop), 0, 1);
  }
}

function bytesOf({ recording }: Reading): number {
  const channels = recording.ok ? recording.value.channels : [];
  return channels.reduce((sum, { samples }) => sum + samples.byteLength, 0);
}
