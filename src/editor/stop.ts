import type { EngineThread } from './engineThread.ts';

/** After how many ms an engine that was told to stop, and did not, is replaced: it looks between two steps, and a step may be long. */
const patience = 600;

/** Ends one run: by memory that the engine looks at, or, where none can be shared, by a message that it takes in between two steps. */
export class Stop {
  /** Undefined where memory can't be shared, as in most browsers. */
  readonly shared = typeof SharedArrayBuffer === 'undefined' ? undefined : new SharedArrayBuffer(4);
  /** Who runs what is to be stopped. */
  thread: EngineThread | undefined;
  readonly #id: number;
  #isWanted = false;

  /** @param id of the request that it is for */
  constructor(id: number) {
    this.#id = id;
  }

  get isWanted(): boolean {
    return this.#isWanted;
  }

  now(): void {
    this.#isWanted = true;
    const { thread, shared } = this;
    if (shared !== undefined) Atomics.store(new Int32Array(shared), 0, 1);
    else thread?.tell({ type: 'stop', id: this.#id });
    setTimeout(() => void thread?.replaceFor(this.#id), patience);
  }
}
