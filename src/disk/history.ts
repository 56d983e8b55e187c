import { execFile } from 'node:child_process';
import type { Commit, History } from '../values/ports.ts';

/** ms; git answers in a few, and nobody waits longer for a date. */
const timeLimit = 5000;
/** ms for which the commit that the project stands at is not asked again. */
const headKept = 1000;
/** Paths in one call of git; a line of arguments has an end. */
const pathsAtOnce = 500;

/** No repository's settings may run a program, write, or fetch. */
const harmless = ['--no-optional-locks', '--no-pager', '-c', 'core.fsmonitor=false', '-c', 'log.showSignature=false'];
const ofLog = ['--no-textconv', '--no-ext-diff', '--no-color'];

/** The history that git keeps of a notebook's folder; without git, or outside a repository, it knows nothing. */
export function diskHistory(folder: string): History {
  let known: { readonly at: number; readonly head: Promise<string | undefined> } | undefined;
  const git = (...args: string[]): Promise<string | undefined> => answerOf(folder, args);
  return {
    head: () => {
      if (known === undefined || Date.now() - known.at > headKept)
        known = { at: Date.now(), head: git('rev-parse', '--verify', 'HEAD').then((id) => id?.trim()) };
      return known.head;
    },
    textSince: async (text) => {
      const notebooks = ['--', ':(glob)*.md'];
      const found = await git('log', '-1', ...ofLog, '--name-only', '--format=%H %ct', `-S${text}`, ...notebooks);
      const [line = '', ...names] = (found ?? '').split('\n').filter((one) => one !== '');
      const commit = commitIn(line);
      if (commit === undefined) return undefined;
      // The last commit that changed how often the text occurs may have taken it away.
      const held = await Promise.all(names.map((name) => git('show', ...ofLog, `${commit.id}:${name}`)));
      return held.some((content) => content?.includes(text)) ? commit : undefined;
    },
    firstOf: async (paths) => {
      const commits: Commit[] = [];
      for (let from = 0; from < paths.length; from += pathsAtOnce) {
        const some = paths.slice(from, from + pathsAtOnce).map((path) => `:(literal)${path}`);
        const found = await git('log', ...ofLog, '--diff-filter=A', '--format=%H %ct', '--', ...some);
        commits.push(...(found ?? '').split('\n').flatMap((line) => commitIn(line) ?? []));
      }
      return commits.reduce<Commit | undefined>(
        (first, one) => (first === undefined || one.at < first.at ? one : first),
        undefined,
      );
    },
  };
}

function commitIn(line: string): Commit | undefined {
  const [, id, at] = /^([0-9a-f]{40,64}) (\d+)$/.exec(line) ?? [];
  return id === undefined ? undefined : { id, at: Number(at) };
}

/** What git prints; undefined where it is not there, refuses, or takes too long. */
function answerOf(folder: string, args: readonly string[]): Promise<string | undefined> {
  return new Promise((done) => {
    execFile(
      'git',
      [...harmless, ...args],
      {
        cwd: folder,
        timeout: timeLimit,
        maxBuffer: 2 ** 26,
        windowsHide: true,
        env: { ...process.env, LC_ALL: 'C', GIT_NO_LAZY_FETCH: '1', GIT_TERMINAL_PROMPT: '0' },
      },
      (error, printed) => done(error === null ? printed : undefined),
    );
  });
}
