import type { FilesAsk } from '../disk/asked.ts';
import type { Answerable, Reply, Request } from '../engine/service.ts';
import type { EngineProgram, Said, StartEngine } from './engineProgram.ts';
import { sentence } from './messages.ts';

/** Who waits for the replies to a request. */
export interface Pending {
  receive(reply: Reply): void;
  fail(error: Error): void;
}

/** The engine was ended by hand: what was asked of it is not answered, and nobody has to be told so. */
export class EngineEnded extends Error {}

/** An engine in a program beside this, started when it is first asked. One that dies fails what it was asked and is started anew. */
export class EngineThread {
  readonly #start: StartEngine;
  /** In the order in which they were asked, which is that in which they are answered. */
  readonly #pending = new Map<number, Pending & { readonly request: Answerable }>();
  #program: EngineProgram | undefined;
  #retired = false;

  constructor(start: StartEngine) {
    this.#start = start;
  }

  /** How many requests wait for their answer. */
  get waiting(): number {
    return this.#pending.size;
  }

  /** Whether something of another notebook waits for its answer. */
  busyFor(notebook: string): boolean {
    return [...this.#pending.values()].some(({ request }) => request.notebook.notebook !== notebook);
  }

  ask(request: Answerable, pending: Pending): void {
    this.#pending.set(request.id, { ...pending, request });
    this.#started().tell(request);
  }

  /** Tells what has no answer; an engine that is not running has nothing to be told. */
  tell(request: Exclude<Request, Answerable>): void {
    this.#program?.tell(request);
  }

  /** Ends the engine at once: what it was asked fails, and everything it knows is forgotten. */
  async dispose(): Promise<void> {
    const program = this.#program;
    this.#program = undefined;
    await program?.end();
    this.#failAll(new EngineEnded(sentence('engine.stopped', {})));
  }

  /**
   * Ends the engine if it is still at a request, which fails; what it knew is lost with it. What waited behind, of which it has
   * answered nothing yet, is asked of another.
   */
  async replaceFor(id: number): Promise<void> {
    if (this.#pending.keys().next().value !== id) return;
    const [first, ...behind] = this.#pending.values();
    const program = this.#program;
    this.#program = undefined;
    this.#pending.delete(id);
    first.fail(new EngineEnded(sentence('engine.stopped', {})));
    for (const { request } of behind) this.#started().tell(request);
    await program?.end();
    this.#restIfRetired();
  }

  /** Ends the engine as soon as nothing waits for it. */
  retire(): void {
    this.#retired = true;
    this.#restIfRetired();
  }

  #restIfRetired(): void {
    if (this.#retired && this.#pending.size === 0) void this.dispose();
  }

  #started(): EngineProgram {
    if (this.#program !== undefined) return this.#program;
    const program = this.#start({
      said: (message) => this.#receive(program, message),
      lost: (error) => {
        if (this.#program !== program) return;
        this.#program = undefined;
        this.#failAll(error);
      },
    });
    return (this.#program = program);
  }

  #receive(program: EngineProgram, message: Said): void {
    if (message.type === 'files') return void this.#answer(program, message);
    const pending = this.#pending.get(message.id);
    if (!['output', 'cell', 'progress'].includes(message.type)) this.#pending.delete(message.id);
    if (message.type === 'failed') pending?.fail(new Error(message.message));
    else pending?.receive(message);
    this.#restIfRetired();
  }

  /** The engine has no file system of the editor's: it asks for it here. */
  async #answer(program: EngineProgram, ask: FilesAsk): Promise<void> {
    const { answerBy } = await import('./answering.ts');
    program.tell(await answerBy(ask));
  }

  #failAll(error: Error): void {
    const waiting = [...this.#pending.values()];
    this.#pending.clear();
    for (const pending of waiting) pending.fail(error);
  }
}
