import { success, type Result } from '../result/result.ts';
import { dayOf } from '../result/words.ts';
import type { Commit } from '../values/ports.ts';
import { answerOf, commitIn, ofLog } from './git.ts';
import { refuse } from './messages.ts';

/** How a commit is told: `1a2b3c4d5e of 2026-05-01`. */
export const commitWords = ({ id, at }: Commit): string => `${shortId(id)} of ${dayOf(at)}`;

/** As much of a commit's id as tells it from others. */
export const shortId = (id: string): string => id.slice(0, 10);

/** A file as it was at a commit. */
export interface FileAt {
  readonly commit: Commit;
  readonly text: string;
}

/**
 * A file of a folder as git has it at a revision (`HEAD`, a branch, `HEAD~2`, the beginning of a commit's id). Refused where git
 * does not answer, knows no such revision, or does not have the file there.
 *
 * @param folder absolute path
 * @param file its name within the folder
 */
export async function fileAt(folder: string, file: string, revision: string): Promise<Result<FileAt>> {
  if ((await answerOf(folder, ['rev-parse', '--git-dir'])) === undefined) return refuse('history.none', {});
  const found = await answerOf(folder, ['log', '-1', ...ofLog, '--format=%H %ct', '--end-of-options', revision, '--']);
  const commit = commitIn(found?.trim() ?? '');
  if (commit === undefined) return refuse('history.revision', { revision });
  const text = await answerOf(folder, ['show', ...ofLog, `${commit.id}:./${file}`]);
  return text === undefined ? refuse('history.file', { file, revision }) : success({ commit, text });
}

/** The latest commits that changed a file of a folder, newest first, with the first lines of their messages. */
export async function revisionsOf(
  folder: string,
  file: string,
  most: number,
): Promise<readonly (Commit & { readonly subject: string })[]> {
  const format = '--format=%H %ct%n%s';
  const found = await answerOf(folder, ['log', `-${most}`, ...ofLog, format, '--', `:(literal)${file}`]);
  const lines = (found ?? '').split('\n');
  return lines.flatMap((line, at) => {
    const commit = at % 2 === 0 ? commitIn(line) : undefined;
    return commit === undefined ? [] : [{ ...commit, subject: lines[at + 1] ?? '' }];
  });
}
