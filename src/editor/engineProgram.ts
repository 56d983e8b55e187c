import type { FilesAnswer, FilesAsk } from '../disk/asked.ts';
import type { Reply, Request } from '../engine/service.ts';

/** What an engine's program is told. */
export type Told = Request | FilesAnswer;

/** What an engine's program says. */
export type Said = Reply | FilesAsk;

/** Who listens to an engine's program. */
export interface Listener {
  said(message: Said): void;
  /** It ended by itself, and answers nothing any more. */
  lost(error: Error): void;
}

/** A program that runs an engine beside the editor. */
export interface EngineProgram {
  tell(message: Told): void;
  end(): Promise<unknown>;
}

export type StartEngine = (listener: Listener) => EngineProgram;
