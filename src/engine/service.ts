import type { Output } from '../charts/output.ts';
import type { Watch } from '../verbs/verb.ts';
import { Engine } from './engine.ts';
import type { Host } from './host.ts';
import { look } from './look.ts';
import { show } from './show.ts';

/** What is asked of an engine that runs elsewhere. */
export type Request =
  | {
      readonly type: 'run';
      readonly id: number;
      readonly notebook: NotebookPlace;
      readonly cells: readonly string[];
      readonly wanted: readonly number[];
      /** One shared integer: not 0 once the run is to stop. */
      readonly stop: SharedArrayBuffer;
    }
  | { readonly type: 'keys'; readonly id: number; readonly notebook: NotebookPlace; readonly cells: readonly string[] }
  | { readonly type: 'look'; readonly id: number; readonly notebook: NotebookPlace; readonly paths: readonly string[] }
  | { readonly type: 'clear'; readonly notebook: NotebookPlace };

/** The folder a notebook's paths are relative to, and the project's folder they must stay in; both absolute. */
export interface NotebookPlace {
  readonly folder: string;
  readonly root: string;
}

export type Reply =
  | {
      readonly type: 'output';
      readonly id: number;
      readonly cell: number;
      readonly line: number;
      readonly output: Output;
    }
  | { readonly type: 'progress'; readonly id: number; readonly fraction: number; readonly what: string }
  | {
      readonly type: 'done';
      readonly id: number;
      readonly ok: boolean;
      readonly cancelled: boolean;
      readonly key: string;
    }
  | { readonly type: 'keys'; readonly id: number; readonly keys: readonly string[] }
  | { readonly type: 'look'; readonly id: number; readonly lines: readonly string[] }
  | { readonly type: 'failed'; readonly id: number; readonly message: string };

/** Answers requests one after the other; a run that was stopped while it waited is answered at once. */
export class Service {
  readonly #engines = new Map<string, Engine>();
  readonly #makeHost: (place: NotebookPlace) => Host;
  readonly #reply: (reply: Reply) => void;
  #queue: Promise<void> = Promise.resolve();

  constructor(makeHost: (place: NotebookPlace) => Host, reply: (reply: Reply) => void) {
    this.#makeHost = makeHost;
    this.#reply = reply;
  }

  receive(request: Request): void {
    this.#queue = this.#queue
      .then(() => this.#answer(request))
      .catch((error: unknown) => {
        if ('id' in request)
          this.#reply({
            type: 'failed',
            id: request.id,
            message: error instanceof Error ? (error.stack ?? error.message) : String(error),
          });
      });
  }

  async #answer(request: Request): Promise<void> {
    const engine = this.#engine(request.notebook);
    if (request.type === 'clear') return engine.clear();
    if (request.type === 'look') {
      const { id, notebook, paths } = request;
      return this.#reply({ type: 'look', id, lines: await this.#look(notebook, paths) });
    }
    const { id, cells } = request;
    if (request.type === 'keys') return this.#reply({ type: 'keys', id, keys: await engine.keys(cells) });
    const watch = this.#watch(id, new Int32Array(request.stop));
    const wanted = new Set(request.wanted);
    const report = await engine.run({ cells, wanted: request.wanted }, watch, (result) => {
      const output = wanted.has(result.cell) ? show(result) : undefined;
      if (output !== undefined && !watch.cancelled())
        this.#reply({ type: 'output', id, cell: result.cell, line: result.line, output });
    });
    const keys = await engine.keys(cells);
    const key = request.wanted.map((cell) => keys[cell]).join(' ');
    this.#reply({ type: 'done', id, ok: report.ok, cancelled: report.cancelled, key });
  }

  async #look(notebook: NotebookPlace, paths: readonly string[]): Promise<string[]> {
    const { files } = this.#makeHost(notebook);
    const looks = [];
    for (const path of paths) looks.push(await look(await files.open(path), {}));
    return looks.flatMap(({ lines }) => [...lines, '']);
  }

  #watch(id: number, stop: Int32Array): Watch {
    let last = 0;
    return {
      cancelled: () => Atomics.load(stop, 0) !== 0,
      progress: (fraction, what) => {
        // A reader can't follow more than a few reports a second.
        const now = Date.now();
        if (now - last < 200) return;
        last = now;
        this.#reply({ type: 'progress', id, fraction, what });
      },
    };
  }

  #engine(place: NotebookPlace): Engine {
    const key = JSON.stringify([place.folder, place.root]);
    let engine = this.#engines.get(key);
    if (engine === undefined) this.#engines.set(key, (engine = new Engine(this.#makeHost(place))));
    return engine;
  }
}
