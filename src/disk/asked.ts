import { reasonOfException } from '../result/environment.ts';
import type { EditorBytes, EditorFiles, EditorStat } from './editorFiles.ts';

/** What an engine asks of the file system that its editor stands for. */
export interface FilesAsk {
  readonly type: 'files';
  readonly ask: number;
  readonly what: keyof EditorFiles;
  /** Address of the file system's top, and an absolute path in it. */
  readonly base: string;
  readonly path: string;
}

/** The answer to an ask; `failed` where the editor failed for a reason of its own. */
export interface FilesAnswer {
  readonly type: 'files';
  readonly ask: number;
  readonly answer?: Awaited<ReturnType<EditorFiles[keyof EditorFiles]>>;
  readonly failed?: string;
}

/** The file systems of an editor, asked for by messages. */
export class AskedFiles {
  readonly #post: (ask: FilesAsk) => void;
  readonly #waiting = new Map<number, (answer: FilesAnswer) => void>();
  #next = 1;

  constructor(post: (ask: FilesAsk) => void) {
    this.#post = post;
  }

  /** One of the file systems. @param base address of its top */
  at(base: string): EditorFiles {
    return {
      stat: (path) => this.#ask('stat', base, path) as Promise<EditorStat | undefined>,
      list: (path) => this.#ask('list', base, path) as ReturnType<EditorFiles['list']>,
      read: (path) => this.#ask('read', base, path) as Promise<EditorBytes>,
    };
  }

  receive(answer: FilesAnswer): void {
    this.#waiting.get(answer.ask)?.(answer);
    this.#waiting.delete(answer.ask);
  }

  #ask(what: FilesAsk['what'], base: string, path: string): Promise<FilesAnswer['answer']> {
    const ask = this.#next++;
    return new Promise((done, fail) => {
      this.#waiting.set(ask, ({ answer, failed }) => (failed === undefined ? done(answer) : fail(new Error(failed))));
      this.#post({ type: 'files', ask, what, base, path });
    });
  }
}

/** Answers an ask by the editor's file system. */
export async function answerTo({ ask, what, path }: FilesAsk, files: EditorFiles): Promise<FilesAnswer> {
  try {
    return { type: 'files', ask, answer: await files[what](path) };
  } catch (error) {
    return { type: 'files', ask, failed: reasonOfException(error) };
  }
}
