import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Done, Job } from './worker.ts';

const script = fileURLToPath(new URL('worker.ts', import.meta.url));

/** A process that runs tests; one that came to its end by a run is replaced by another. */
export class Runner {
  #child: ChildProcess | undefined;
  #jobs = 0;

  /** Undefined is given for a run that ended its process. */
  run(job: Job): Promise<Done | undefined> {
    const child = this.#started();
    return new Promise((resolve) => {
      const finish = (done: Done | undefined): void => {
        child.removeAllListeners();
        if (done === undefined || ++this.#jobs % 400 === 0) this.stop();
        resolve(done);
      };
      child.once('message', (done: Done) => finish(done));
      child.once('exit', () => finish(undefined));
      child.send(job);
    });
  }

  stop(): void {
    this.#child?.kill('SIGKILL');
    this.#child = undefined;
  }

  #started(): ChildProcess {
    this.#child ??= fork(script, { execArgv: ['--import', 'tsx'], stdio: ['ignore', 'ignore', 'ignore', 'ipc'] });
    return this.#child;
  }
}
