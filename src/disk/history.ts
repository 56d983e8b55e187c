import { resolve } from 'node:path';
import type { Commit, History } from '../values/ports.ts';
import { answerOf, commitIn, ofLog } from './git.ts';

/** ms for which the commit that the project stands at is not asked again. */
const headKept = 1000;
/** Paths in one call of git; a line of arguments has an end. */
const pathsAtOnce = 500;

type Git = (...args: string[]) => Promise<string | undefined>;

/** The history that git keeps of a notebook's folder; without git, outside a repository or in a shallow clone it knows nothing. */
export function diskHistory(folder: string): History {
  let known: { readonly at: number; readonly head: Promise<string | undefined> } | undefined;
  const git: Git = (...args) => answerOf(resolve(folder), args);
  return {
    head: () => {
      if (known === undefined || Date.now() - known.at > headKept) known = { at: Date.now(), head: headOf(git) };
      return known.head;
    },
    textSince: async (text) => ((await headOf(git)) === undefined ? undefined : textSince(git, text)),
    firstOf: async (paths) => ((await headOf(git)) === undefined ? undefined : firstOf(git, paths)),
  };
}

/** A shallow clone has lost its first commits, and shows everything as if it had come in with the oldest that is left. */
async function headOf(git: Git): Promise<string | undefined> {
  const [isShallow, id] = ((await git('rev-parse', '--is-shallow-repository', '--verify', 'HEAD')) ?? '').split('\n');
  return isShallow === 'false' ? id : undefined;
}

async function textSince(git: Git, text: string): Promise<Commit | null | undefined> {
  const notebooks = ['--', ':(glob)*.md'];
  const found = await git(
    'log',
    '-1',
    ...ofLog,
    '--name-only',
    '--relative',
    '--format=%H %ct',
    `-S${text}`,
    ...notebooks,
  );
  if (found === undefined) return undefined;
  const [line = '', ...names] = found.split('\n').filter((one) => one !== '');
  const commit = commitIn(line);
  if (commit === undefined) return null;
  // The last commit that changed how often the text occurs may have taken it away.
  const held = await Promise.all(names.map((name) => git('show', ...ofLog, `${commit.id}:./${name}`)));
  return held.some((content) => content?.includes(text)) ? commit : null;
}

async function firstOf(git: Git, paths: readonly string[]): Promise<Commit | null | undefined> {
  const commits: Commit[] = [];
  for (let from = 0; from < paths.length; from += pathsAtOnce) {
    const some = paths.slice(from, from + pathsAtOnce).map((path) => `:(literal)${path}`);
    const found = await git('log', ...ofLog, '--diff-filter=A', '--format=%H %ct', '--', ...some);
    if (found === undefined) return undefined;
    commits.push(...found.split('\n').flatMap((line) => commitIn(line) ?? []));
  }
  return commits.reduce<Commit | null>((first, one) => (first === null || one.at < first.at ? one : first), null);
}
