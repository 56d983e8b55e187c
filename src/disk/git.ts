import { execFile } from 'node:child_process';
import { dirname } from 'node:path';
import type { Commit } from '../values/ports.ts';

/** ms; git answers in a few, and nobody waits longer for a date. */
const timeLimit = 5000;

/** No repository's settings may run a program, write, or fetch. */
const harmless = ['--no-optional-locks', '--no-pager', '-c', 'core.fsmonitor=false', '-c', 'log.showSignature=false'];
/** Of what shows a commit or a file: neither may run a program. */
export const ofLog = ['--no-textconv', '--no-ext-diff', '--no-color'];

/** The commit that a line of `%H %ct` tells of. */
export function commitIn(line: string): Commit | undefined {
  const found = /^([0-9a-f]{40,64}) (\d+)$/.exec(line);
  return found === null ? undefined : { id: found[1], at: Number(found[2]) };
}

/** What git prints; undefined where it is not there, refuses, or takes too long. */
export function answerOf(folder: string, args: readonly string[]): Promise<string | undefined> {
  return new Promise((done) => {
    execFile(
      'git',
      [...harmless, '-C', folder, ...args],
      {
        // Not the folder: Windows would look there for a program of the name.
        cwd: dirname(process.execPath),
        timeout: timeLimit,
        maxBuffer: 2 ** 26,
        windowsHide: true,
        env: {
          ...process.env,
          GIT_DIR: undefined,
          GIT_WORK_TREE: undefined,
          LC_ALL: 'C',
          GIT_NO_LAZY_FETCH: '1',
          GIT_TERMINAL_PROMPT: '0',
        },
      },
      (error, printed) => done(error === null ? printed : undefined),
    );
  });
}
