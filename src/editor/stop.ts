import type { EngineThread } from './engineThread.ts';

/** After how many ms an engine that can only be told by a message to stop, and did not, is ended. */
const patience = 2000;

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
    if (this.shared !== undefined) return void Atomics.store(new Int32Array(this.shared), 0, 1);
    const { thread } = this;
    thread?.tell({ type: 'stop', id: this.#id });
    // A long step lets no message in: what it knows is lost with it, and the next run starts another.
    setTimeout(() => {
      if (thread?.isAsked(this.#id) === true) void thread.dispose();
    }, patience);
  }
}
