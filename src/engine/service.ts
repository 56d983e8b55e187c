import { readyToDraw } from '../charts/compiled.ts';
import type { Display } from '../charts/display.ts';
import type { Output } from '../charts/output.ts';
import type { ChannelFacts } from '../language/services/outside.ts';
import type { Json } from '../values/json.ts';
import type { Watch } from '../values/ports.ts';
import { Cache, samplesInSession } from './cache.ts';
import { Engine } from './engine.ts';
import { factsOf, type NameFacts } from './facts.ts';
import { channelsOf } from './fileFacts.ts';
import type { Host } from './host.ts';
import { reportJson } from './json.ts';
import { look } from './look.ts';
import { offersOf, type NumberOffer } from './numberOffers.ts';
import type { AskedNumber, NumberCheck } from './proseNumbers.ts';
import { refuseFault } from './messages.ts';
import { made, type MadeText, type MakeOrder } from './making.ts';
import { lookedCloser, moved, shown, type CellOutput, type Closer, type Moved, type MoveOrder } from './moving.ts';
import type { CellChanges } from './ingredients.ts';
import type { CellFailure } from './recall.ts';
import type { CellKeys } from './result.ts';
import { starterNotebook } from './starter.ts';
import { starterFacts } from './starterFacts.ts';
import { lookAt, type LookAt } from './traces.ts';

/** What is answered with charts. */
const drawing: readonly Request['type'][] = ['run', 'move', 'closer'];

type RunRequest = Extract<Request, { readonly type: 'run' }>;

/** What is asked of an engine that runs elsewhere. */
export type Request =
  | {
      readonly type: 'run';
      readonly id: number;
      readonly notebook: ProjectFolders;
      readonly cells: readonly string[];
      /** What the reader counts each cell as, from 1. */
      readonly numbers: readonly number[];
      readonly wanted: readonly number[];
      /** The cells that are to be run next. */
      readonly soon?: readonly number[];
      /** The cells whose content keys are to come with the answer. */
      readonly keyed: readonly number[];
      /** One shared integer, not 0 once the run is to stop; where memory can't be shared, a request tells it. */
      readonly stop: SharedArrayBuffer | undefined;
      readonly display?: Display;
    }
  | {
      readonly type: 'keys';
      readonly id: number;
      readonly notebook: ProjectFolders;
      readonly cells: readonly string[];
      readonly keyed: readonly number[];
    }
  /** What has changed since cells had other content keys. */
  | {
      readonly type: 'changes';
      readonly id: number;
      readonly notebook: ProjectFolders;
      readonly cells: readonly string[];
      readonly numbers: readonly number[];
      readonly before: CellKeys;
    }
  | { readonly type: 'look'; readonly id: number; readonly notebook: ProjectFolders; readonly paths: readonly string[] }
  | StarterRequest
  | FactsRequest
  | DocumentRequest
  | ({ readonly type: 'move'; readonly id: number; readonly notebook: ProjectFolders } & MoveOrder)
  | ({ readonly type: 'make'; readonly id: number; readonly notebook: ProjectFolders } & MakeOrder)
  | CloserRequest
  | NumbersRequest
  | { readonly type: 'clear'; readonly notebook: ProjectFolders }
  /** Ends a run that shares no memory with whoever asked for it. */
  | { readonly type: 'stop'; readonly id: number };

/** A request that is answered. */
export type Answerable = Exclude<Request, { readonly type: 'clear' | 'stop' }>;

/** What charts show of a stretch of their axis. */
export interface CloserRequest {
  readonly type: 'closer';
  readonly id: number;
  readonly notebook: ProjectFolders;
  readonly cells: readonly string[];
  readonly closer: readonly Closer[];
}

/** The text of a notebook that begins with files. */
export interface StarterRequest {
  readonly type: 'starter';
  readonly id: number;
  readonly notebook: ProjectFolders;
  /** The recordings, and all files of their folders; relative to the notebook's. */
  readonly paths: readonly string[];
  readonly besides: readonly string[];
}

/** A run of the whole notebook as the JSON that a record is made of. */
export interface DocumentRequest {
  readonly type: 'document';
  readonly id: number;
  readonly notebook: ProjectFolders;
  /** Name of its file. */
  readonly file: string;
  readonly cells: readonly string[];
  readonly stop: SharedArrayBuffer | undefined;
}

/** What is known, without long work, of the numbers in a notebook's prose, and which others could stand there. */
export interface NumbersRequest {
  readonly type: 'numbers';
  readonly id: number;
  readonly notebook: ProjectFolders;
  readonly cells: readonly string[];
  readonly numbers: readonly AskedNumber[];
}

export interface NumbersAnswer {
  readonly numbers: readonly NumberCheck[];
  readonly offers: readonly NumberOffer[];
  /** False if it was given up for something else: asking again later tells more. */
  readonly complete: boolean;
}

/** What is known, without long work, of a notebook's names and of some files; given up as soon as anything else is asked. */
export interface FactsRequest {
  readonly type: 'facts';
  readonly id: number;
  readonly notebook: ProjectFolders;
  readonly cells: readonly string[];
  /** Relative to the notebook's folder. */
  readonly files: readonly string[];
}

/** The folder a notebook's paths are relative to, and the project's folder they must stay in; both absolute. */
export interface ProjectFolders {
  readonly folder: string;
  readonly root: string;
  /** Address of the notebook, where it is one's: what is asked of several engines goes to the same one. */
  readonly notebook?: string;
  /** False for a notebook that lies in no folder yet, whose `folder` is its address: it has no raw files. */
  readonly saved?: false;
  /** False where the project's history may not be asked. */
  readonly history?: false;
  /** Address of the top of the file system that the folders are paths of, where that is not this machine's disk. */
  readonly base?: string;
}

export type Reply =
  | {
      readonly type: 'output';
      readonly id: number;
      readonly cell: number;
      readonly line: number;
      readonly output: Output;
    }
  /** A wanted cell all of whose outputs have been told, and whether none of its statements failed. */
  | { readonly type: 'cell'; readonly id: number; readonly cell: number; readonly ok: boolean }
  | { readonly type: 'progress'; readonly id: number; readonly fraction: number; readonly what: string }
  | {
      readonly type: 'done';
      readonly id: number;
      readonly ok: boolean;
      readonly cancelled: boolean;
      readonly keys: CellKeys;
    }
  | { readonly type: 'keys'; readonly id: number; readonly keys: CellKeys }
  | { readonly type: 'changes'; readonly id: number; readonly changes: CellChanges }
  | { readonly type: 'look'; readonly id: number; readonly looks: readonly LookAt[] }
  | { readonly type: 'starter'; readonly id: number; readonly text: string }
  | ({ readonly type: 'facts'; readonly id: number } & NotebookFacts)
  /** Undefined where it was stopped. Lines are those of the cells. */
  | { readonly type: 'document'; readonly id: number; readonly document: Json | undefined }
  | ({ readonly type: 'move'; readonly id: number } & Moved)
  | ({ readonly type: 'make'; readonly id: number } & MadeText)
  | { readonly type: 'closer'; readonly id: number; readonly outputs: readonly CellOutput[] }
  | ({ readonly type: 'numbers'; readonly id: number } & NumbersAnswer)
  | { readonly type: 'failed'; readonly id: number; readonly message: string };

export interface NotebookFacts {
  /** By the name a value is bound to. */
  readonly names: Readonly<Record<string, NameFacts>>;
  /** Of statements that are certain to fail when they are run. */
  readonly failures: readonly CellFailure[];
  /** Channels by file; a file that could not be looked at is left out. */
  readonly files: Readonly<Record<string, readonly ChannelFacts[]>>;
  /** False if it was given up for something else: asking again later tells more. */
  readonly complete: boolean;
}

/** Answers requests one after the other; a run that was stopped while it waited is answered at once. */
export class Service {
  readonly #engines = new Map<string, Engine>();
  readonly #makeHost: (folders: ProjectFolders) => Host;
  readonly #reply: (reply: Reply) => void;
  /** As the last run was asked to show: what moves meanwhile is shown alike. */
  #display: Display = {};
  #queue: Promise<void> = Promise.resolve();
  /** Requests that were received and not yet answered. */
  #open = 0;
  /** Of these, the ones that were told to stop. */
  readonly #stopped = new Set<number>();

  constructor(makeHost: (folders: ProjectFolders) => Host, reply: (reply: Reply) => void) {
    this.#makeHost = makeHost;
    this.#reply = reply;
  }

  receive(request: Request): void {
    if (request.type === 'stop') return void this.#stopped.add(request.id);
    this.#open++;
    this.#queue = this.#queue
      .then(() => this.#answer(request))
      .catch((error: unknown) => {
        if ('id' in request)
          this.#reply({ type: 'failed', id: request.id, message: refuseFault(error).failure.message });
      })
      .finally(() => {
        this.#open--;
        if ('id' in request) this.#stopped.delete(request.id);
      });
  }

  async #answer(request: Exclude<Request, { readonly type: 'stop' }>): Promise<void> {
    const engine = this.#engine(request.notebook);
    if (request.type === 'clear') return engine.clear();
    if (drawing.includes(request.type)) await readyToDraw();
    if (request.type === 'look') {
      const { id, notebook, paths } = request;
      return this.#reply({ type: 'look', id, looks: await this.#look(notebook, paths) });
    }
    if (request.type === 'starter') {
      const { id, notebook, paths, besides } = request;
      const facts = await starterFacts(paths, this.#makeHost(notebook).files);
      return this.#reply({ type: 'starter', id, text: starterNotebook(paths, besides, facts) });
    }
    if (request.type === 'facts')
      return this.#reply({ type: 'facts', id: request.id, ...(await this.#facts(request)) });
    if (request.type === 'document') return this.#document(engine, request);
    if (request.type === 'move')
      return this.#reply({ type: 'move', id: request.id, ...(await moved(engine, request, this.#display)) });
    if (request.type === 'make') return this.#reply({ type: 'make', id: request.id, ...(await made(engine, request)) });
    if (request.type === 'closer') {
      const { id, cells, closer } = request;
      return this.#reply({ type: 'closer', id, outputs: await lookedCloser(engine, cells, closer, this.#display) });
    }
    if (request.type === 'numbers') return this.#numbers(engine, request);
    if (request.type === 'changes') {
      const { id, cells, numbers, before } = request;
      return this.#reply({ type: 'changes', id, changes: await engine.changes(cells, numbers, before) });
    }
    if (request.type === 'keys')
      return this.#reply({ type: 'keys', id: request.id, keys: await engine.keys(request.cells, request.keyed) });
    await this.#run(engine, request);
  }

  async #run(
    engine: Engine,
    { id, cells, numbers, soon = [], keyed, stop, display = {}, ...request }: RunRequest,
  ): Promise<void> {
    this.#display = display;
    const watch = this.#watch(id, stop);
    const wanted = new Set(request.wanted);
    const report = await engine.run(
      { cells, numbers, wanted: request.wanted, soon, keyed },
      watch,
      (result) => {
        const output = wanted.has(result.cell) ? shown(engine, result, this.#display) : undefined;
        if (output !== undefined && !watch.cancelled())
          this.#reply({ type: 'output', id, cell: result.cell, line: result.line, output });
      },
      (cell, ok) => {
        if (wanted.has(cell) && !watch.cancelled()) this.#reply({ type: 'cell', id, cell, ok });
      },
    );
    const { ok, cancelled } = report;
    this.#reply({ type: 'done', id, ok, cancelled, keys: report.keys });
  }

  async #document(engine: Engine, { id, file, cells, stop }: DocumentRequest): Promise<void> {
    const request = { cells, wanted: 'all', withoutHistory: true, undrawn: true } as const;
    const report = await engine.run(request, this.#watch(id, stop));
    const places = cells.map(() => ({ line: 1 }));
    this.#reply({ type: 'document', id, document: report.cancelled ? undefined : reportJson(file, places, report) });
  }

  async #numbers(engine: Engine, { id, cells, numbers }: NumbersRequest): Promise<void> {
    const watch = { cancelled: () => this.#open > 1, progress: () => undefined };
    const { values, numbers: found, complete } = await engine.recallNumbers(cells, numbers, watch);
    this.#reply({ type: 'numbers', id, numbers: found, offers: offersOf(values), complete });
  }

  async #look(notebook: ProjectFolders, paths: readonly string[]): Promise<LookAt[]> {
    const { files } = this.#makeHost(notebook);
    const looks = [];
    for (const path of paths) looks.push(lookAt(await look(await files.open(path), {})));
    return looks;
  }

  async #facts({ notebook, cells, files }: FactsRequest): Promise<NotebookFacts> {
    const watch = { cancelled: () => this.#open > 1, progress: () => undefined };
    const { values, failures, complete } = await this.#engine(notebook).recall(cells, watch);
    const looked: Record<string, readonly ChannelFacts[]> = {};
    const { files: disk } = this.#makeHost(notebook);
    for (const path of files) {
      if (watch.cancelled()) break;
      const list = await disk.expand(path);
      if (list.ok) looked[path] = await channelsOf(await disk.open(list.value[0]), watch);
    }
    return {
      names: Object.fromEntries([...values].map(([name, value]) => [name, factsOf(value)])),
      failures,
      files: looked,
      complete: complete && !watch.cancelled(),
    };
  }

  #watch(id: number, stop: SharedArrayBuffer | undefined): Watch {
    const flag = stop && new Int32Array(stop);
    let last = 0;
    return {
      cancelled: () => (flag !== undefined && Atomics.load(flag, 0) !== 0) || this.#stopped.has(id),
      progress: (fraction, what) => {
        // A reader can't follow more than a few reports a second.
        const now = Date.now();
        if (now - last < 200) return;
        last = now;
        this.#reply({ type: 'progress', id, fraction, what });
      },
    };
  }

  #engine(folders: ProjectFolders): Engine {
    const key = JSON.stringify([folders.folder, folders.root, folders.history, folders.base]);
    let engine = this.#engines.get(key);
    if (engine === undefined) {
      engine = new Engine(this.#makeHost(folders), new Cache({ samples: samplesInSession }));
      this.#engines.set(key, engine);
    }
    return engine;
  }
}
