import * as vscode from 'vscode';
import { commitWords, fileAt, revisionsOf, shortId, type FileAt } from '../../disk/revisions.ts';
import { parseRecord } from '../../notebook/record.ts';
import { success, type Result } from '../../result/result.ts';
import { dayOf } from '../../result/words.ts';
import type { Recorded } from './recorded.ts';

/**
 * The record that git has of a folder; undefined where the user named no revision.
 * @param folder absolute path on this machine
 * @param file name of the record
 * @param revision asked for if undefined
 */
export async function recordAt(
  folder: string,
  file: string,
  revision: string | undefined,
): Promise<Result<Recorded> | undefined> {
  const asked = revision ?? (await askRevision(folder, file));
  return asked === undefined ? undefined : read(await fileAt(folder, file, asked), file, asked);
}

function read(found: Result<FileAt>, file: string, revision: string): Result<Recorded> {
  if (!found.ok) return found;
  const { commit, text } = found.value;
  const record = parseRecord(text);
  if (!record.ok) return record;
  const id = commitWords(commit);
  const at = commit.id.startsWith(revision) ? id : `${revision} (${id})`;
  return success({ record: record.value, against: `${file} at ${at}` });
}

/** The commits that wrote the record, and any other by its name. */
async function askRevision(folder: string, file: string): Promise<string | undefined> {
  const commits = (await revisionsOf(folder, file, 30)).map(({ id, at, subject }) => ({
    label: subject,
    description: `${shortId(id)}, ${dayOf(at)}`,
    revision: id,
  }));
  const other = {
    label: vscode.l10n.t('Another revision…'),
    description: vscode.l10n.t('a branch, a tag or a commit'),
    revision: undefined,
  };
  const picked = await vscode.window.showQuickPick(
    [{ label: 'HEAD', description: vscode.l10n.t('the last commit'), revision: 'HEAD' }, ...commits, other],
    {
      title: vscode.l10n.t('What changed since…'),
      placeHolder: vscode.l10n.t('The record {0} in git', file),
      matchOnDescription: true,
    },
  );
  if (picked === undefined || picked.revision !== undefined) return picked?.revision;
  return vscode.window.showInputBox({
    title: vscode.l10n.t('What changed since…'),
    prompt: vscode.l10n.t('A revision that git knows'),
    value: 'HEAD~1',
  });
}
