import type { CellChanges } from '../engine/ingredients.ts';
import type { CellKeys } from '../engine/result.ts';
import type { MadeText, MakeOrder } from '../engine/making.ts';
import type { CellOutput, Closer, Moved, MoveOrder } from '../engine/moving.ts';
import type { AskedNumber } from '../engine/proseNumbers.ts';
import type { Answerable, NotebookFacts, NumbersAnswer, ProjectFolders, Reply, Request } from '../engine/service.ts';
import type { LookAt } from '../engine/traces.ts';
import type { Display } from '../charts/display.ts';
import type { Output } from '../charts/output.ts';
import type { Json } from '../values/json.ts';
import { EngineEnded, type EngineThread, type Pending } from './engineThread.ts';
import { Stop } from './stop.ts';

export interface CellRun {
  readonly ok: boolean;
  readonly cancelled: boolean;
  /** Content keys of the cells that `keyed` named. */
  readonly keys: CellKeys;
}

/** Cells of a notebook, to be run in this order. */
export interface RunOrder {
  readonly notebook: ProjectFolders;
  readonly cells: readonly string[];
  /** What the reader counts each cell as, from 1. */
  readonly numbers: readonly number[];
  readonly wanted: readonly number[];
  /** The cells that are to be run next. */
  readonly soon?: readonly number[];
  /** The cells whose content keys are to come with the answer. */
  readonly keyed: readonly number[];
  readonly display: Display;
}

export interface RunListener {
  /** The line is the statement's, within its cell. */
  output(cell: number, output: Output, line: number): void;
  /** All outputs of the cell have been told. */
  settled(cell: number, ok: boolean): void;
  progress(fraction: number, what: string): void;
}

/** The thread that works for a notebook, and where that lies. */
interface Share {
  readonly thread: EngineThread;
  readonly folder: string;
}

/** After how many ms a run that is to stop counts as stopped, whatever long step the engine is still in. */
const stopWithin = 150;

/**
 * The engines that work for the open notebooks, each in a thread: a notebook has one of its own while there may be more, so
 * that it never waits for another. Notebooks that share one stay with it, since there their values are, unless it is at
 * work for another while a thread is free.
 */
export class EngineThreads {
  readonly #start: () => EngineThread;
  readonly #most: () => number;
  readonly #threads: EngineThread[] = [];
  readonly #shares = new Map<string, Share>();
  #next = 1;

  /** @param most how many threads there may be, asked when one is wanted; at least 1 */
  constructor(start: () => EngineThread, most: () => number) {
    this.#start = start;
    this.#most = most;
  }

  /** Runs cells and what they need. */
  run(order: RunOrder, listener: RunListener, onStop: (stop: () => void) => void): Promise<CellRun> {
    const id = this.#next++;
    const stop = new Stop(id);
    return new Promise((done, reject) => {
      onStop(() => {
        stop.now();
        setTimeout(() => done({ ok: false, cancelled: true, keys: new Map() }), stopWithin);
      });
      stop.thread = this.#ask(
        { type: 'run', id, stop: stop.shared, ...order },
        {
          receive: (reply) => {
            // What still comes of a run that counts as stopped is not shown.
            if (stop.isWanted && reply.type !== 'done') return;
            if (reply.type === 'output') listener.output(reply.cell, reply.output, reply.line);
            else if (reply.type === 'cell') listener.settled(reply.cell, reply.ok);
            else if (reply.type === 'progress') listener.progress(reply.fraction, reply.what);
            else if (reply.type === 'done') done(reply);
          },
          fail: reject,
        },
      );
    });
  }

  /** Content keys of cells, as a run would give them with its answer. */
  async keys(notebook: ProjectFolders, cells: readonly string[], keyed: readonly number[]): Promise<CellKeys> {
    return (await this.#answer('keys', { notebook, cells, keyed })).keys;
  }

  /** What has changed since cells had other content keys. @param numbers what the reader counts each cell as */
  async changes(
    notebook: ProjectFolders,
    cells: readonly string[],
    numbers: readonly number[],
    before: CellKeys,
  ): Promise<CellChanges> {
    return (await this.#answer('changes', { notebook, cells, numbers, before })).changes;
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
    const stop = new Stop(this.#next);
    onStop(() => stop.now());
    const rest = { notebook, file, cells, stop: stop.shared };
    const answer = await this.#answer('document', rest, (thread) => (stop.thread = thread)).catch((error: unknown) => {
      if (stop.isWanted && error instanceof EngineEnded) return undefined;
      throw error;
    });
    return answer?.document;
  }

  /** What a moved literal makes of the text, and of some cells if they were run on it. */
  move(notebook: ProjectFolders, order: MoveOrder): Promise<Moved> {
    return this.#answer('move', { notebook, ...order });
  }

  /** What is to be written to make something of a stretch of a chart. */
  make(notebook: ProjectFolders, order: MakeOrder): Promise<MadeText> {
    return this.#answer('make', { notebook, ...order });
  }

  /** What charts show of stretches of their axes. */
  async closer(
    notebook: ProjectFolders,
    cells: readonly string[],
    closer: readonly Closer[],
  ): Promise<readonly CellOutput[]> {
    return (await this.#answer('closer', { notebook, cells, closer })).outputs;
  }

  /** What is known of the numbers in a notebook's prose, without long work. */
  numbers(notebook: ProjectFolders, cells: readonly string[], numbers: readonly AskedNumber[]): Promise<NumbersAnswer> {
    return this.#answer('numbers', { notebook, cells, numbers });
  }

  /**
   * Frees what is known of a notebook that was closed: its thread ends unless it works for others, or is the last, which
   * stays for the next notebook.
   */
  forget(closed: ProjectFolders): void {
    const thread = this.#leave(closed);
    if (thread === undefined || this.#sharing(thread).length > 0 || this.#threads.length === 1) return;
    this.#threads.splice(this.#threads.indexOf(thread), 1);
    thread.retire();
  }

  /** Ends all threads: everything they know is forgotten. */
  async dispose(): Promise<void> {
    this.#shares.clear();
    await Promise.all(this.#threads.splice(0).map((thread) => thread.dispose()));
  }

  /** Asks what has one reply, of the same type. */
  #answer<
    Type extends
      'keys' | 'changes' | 'look' | 'starter' | 'facts' | 'document' | 'move' | 'make' | 'closer' | 'numbers',
  >(
    type: Type,
    rest: Omit<Extract<Request, { type: Type }>, 'type' | 'id'>,
    asked: (thread: EngineThread) => void = () => undefined,
  ): Promise<Extract<Reply, { type: Type }>> {
    const id = this.#next++;
    return new Promise((done, reject) => {
      const thread = this.#ask({ type, id, ...rest } as Extract<Request, { type: Type }>, {
        receive: (reply) => {
          if (reply.type === type) done(reply as Extract<Reply, { type: Type }>);
        },
        fail: reject,
      });
      asked(thread);
    });
  }

  #ask(request: Answerable, pending: Pending): EngineThread {
    const thread = this.#threadFor(request.notebook);
    thread.ask(request, pending);
    return thread;
  }

  #threadFor(folders: ProjectFolders): EngineThread {
    const { notebook, folder } = folders;
    // What belongs to no notebook is done by any thread that has nothing else to do.
    if (notebook === undefined) return this.#idle() ?? this.#started() ?? this.#leastUsed();
    const own = this.#shares.get(notebook)?.thread;
    if (own !== undefined && !(own.busyFor(notebook) && this.#idle() !== undefined)) return own;
    this.#leave(folders);
    const unused = this.#threads.find((one) => this.#sharing(one).length === 0);
    const thread = unused ?? this.#started() ?? this.#idle() ?? this.#leastUsed();
    this.#shares.set(notebook, { thread, folder });
    return thread;
  }

  #idle(): EngineThread | undefined {
    return this.#threads.find(({ waiting }) => waiting === 0);
  }

  /** One thread more, if there may be one. */
  #started(): EngineThread | undefined {
    if (this.#threads.length >= this.#most()) return undefined;
    const thread = this.#start();
    this.#threads.push(thread);
    return thread;
  }

  /** The thread of the fewest notebooks, and among such the one that is asked the least. */
  #leastUsed(): EngineThread {
    const uses = (thread: EngineThread): number => this.#sharing(thread).length;
    const [least] = [...this.#threads].sort((a, b) => uses(a) - uses(b) || a.waiting - b.waiting);
    return least;
  }

  #sharing(thread: EngineThread): Share[] {
    return [...this.#shares.values()].filter((share) => share.thread === thread);
  }

  /** Takes a notebook's thread from it; the folder's values go there with its last notebook. */
  #leave(folders: ProjectFolders): EngineThread | undefined {
    const { notebook = '', folder } = folders;
    const thread = this.#shares.get(notebook)?.thread;
    if (thread === undefined) return undefined;
    this.#shares.delete(notebook);
    if (!this.#sharing(thread).some((share) => share.folder === folder))
      thread.tell({ type: 'clear', notebook: folders });
    return thread;
  }
}
