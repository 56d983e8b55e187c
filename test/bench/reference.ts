import { spawn, type ChildProcessWithoutNullStreams } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

/** Debian's interpreter, for which python3-numpy and python3-scipy are packaged. */
export const python = process.env.WASHBOARD_PYTHON ?? '/usr/bin/python3';

/** scipy in a process of its own, which lives as long as the bench. */
export class Reference {
  readonly #process: ChildProcessWithoutNullStreams;
  readonly #lines: AsyncIterator<string>;

  constructor() {
    this.#process = spawn(python, [fileURLToPath(new URL('reference.py', import.meta.url))]);
    this.#process.stderr.pipe(process.stderr);
    this.#lines = createInterface({ input: this.#process.stdout })[Symbol.asyncIterator]();
  }

  async versions(): Promise<Record<string, string>> {
    return JSON.parse(await this.#next()) as Record<string, string>;
  }

  /** Milliseconds of each repeat of a job. */
  async times(name: string, args: readonly number[], repeats: number): Promise<number[]> {
    this.#process.stdin.write(`${JSON.stringify({ name, arguments: args, repeats })}\n`);
    return (JSON.parse(await this.#next()) as { times: number[] }).times;
  }

  end(): void {
    this.#process.stdin.end();
  }

  async #next(): Promise<string> {
    const { value, done } = await this.#lines.next();
    if (done) throw new Error(`${python} ended; the bench needs its numpy and scipy`);
    return value as string;
  }
}
