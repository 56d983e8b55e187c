import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import * as vscode from 'vscode';
import { commitWords, fileAt, revisionsOf, shortId, type FileAt } from '../../disk/revisions.ts';
import { compareRecords, writtenByAnother } from '../../notebook/compareRecords.ts';
import { makeRecord, parseRecord, recordPath, type NotebookRecord, type RunDocument } from '../../notebook/record.ts';
import type { ProjectFolders } from '../../engine/service.ts';
import { cellNameOf, cellWords } from '../../language/cellName.ts';
import { success, type Result } from '../../result/result.ts';
import { tool } from '../../result/version.ts';
import { dayOf } from '../../result/words.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { errorOf, sentence } from '../messages.ts';
import { languageId } from '../names.ts';
import { codeCells, foldersOf, numbersOf, textsOf } from '../notebooks.ts';
import { changedPage, revealCommand, type ChangedPage } from './page.ts';

/**
 * Runs a notebook as it stands in the editor, and shows beside it what differs from its record in git.
 * @param revision the one to hold against; asked for if undefined
 */
export async function showChanged(
  engine: EngineThreads,
  notebook: vscode.NotebookDocument,
  revision: string | undefined,
): Promise<void> {
  const folders = foldersOf(notebook);
  if (!vscode.workspace.isTrusted) return void vscode.window.showWarningMessage(sentence('git.untrusted', {}));
  if (folders === undefined) throw errorOf('notebook.unsaved', {});
  const file = basename(recordPath(notebook.uri.fsPath));
  const asked = revision ?? (await askRevision(folders.folder, file));
  if (asked === undefined) return;
  const found = read(await fileAt(folders.folder, file, asked), file, asked);
  if (!found.ok) return void vscode.window.showWarningMessage(found.failure.message);
  await show(engine, notebook, folders, { title: vscode.l10n.t('What changed'), ...found.value });
}

/** Runs a notebook as it stands in the editor, and shows beside it what differs from the record that lies beside it. */
export async function showVerified(engine: EngineThreads, notebook: vscode.NotebookDocument): Promise<void> {
  const folders = foldersOf(notebook);
  if (folders === undefined) return void vscode.window.showWarningMessage(sentence('notebook.unsaved', {}));
  const file = recordPath(notebook.uri.fsPath);
  const name = basename(notebook.uri.path);
  const text = await readFile(file, 'utf8').catch(() => undefined);
  if (text === undefined) return void vscode.window.showWarningMessage(sentence('record.missing', { notebook: name }));
  const record = parseRecord(text);
  if (!record.ok) return void vscode.window.showWarningMessage(record.failure.message);
  await show(engine, notebook, folders, {
    title: vscode.l10n.t('Verify'),
    record: record.value,
    against: basename(file),
  });
}

async function show(
  engine: EngineThreads,
  notebook: vscode.NotebookDocument,
  folders: ProjectFolders,
  { title, record, against }: Recorded & { readonly title: string },
): Promise<void> {
  const name = basename(notebook.uri.path);
  const cells = codeCells(notebook, languageId);
  const names = namesOf(cells);
  const document = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title: vscode.l10n.t('Running {0}', name), cancellable: true },
    (_progress, token) => engine.document(folders, name, textsOf(cells), (stop) => token.onCancellationRequested(stop)),
  );
  if (document === undefined) return;
  const run = document as unknown as RunDocument;
  const now = makeRecord(run, tool);
  const panel = vscode.window.createWebviewPanel('washboardChanged', `${title}: ${name}`, vscode.ViewColumn.Beside, {
    enableCommandUris: [revealCommand],
    enableFindWidget: true,
  });
  panel.webview.html = changedPage({
    notebook: name,
    uri: notebook.uri.toString(),
    against,
    remark: writtenByAnother(record, now)?.message,
    differences: compareRecords(record, now),
    cellOf: cellsByName(run, names),
  });
}

/** What a reader finds each cell by, as the editor counts them now. */
function namesOf(cells: readonly vscode.NotebookCell[]): string[] {
  const notebook = { cells: textsOf(cells).map((text) => ({ text })), numbers: numbersOf(cells) };
  return notebook.cells.map((_, cell) => cellWords(cellNameOf(notebook, cell)));
}

interface Recorded {
  readonly record: NotebookRecord;
  readonly against: string;
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

/** Which cell a recorded value comes from: the beginning of its name is the statement's, or says cell and place. */
function cellsByName({ cells }: RunDocument, called: readonly string[]): ChangedPage['cellOf'] {
  const byName = new Map(
    cells.flatMap(({ index, statements }) =>
      statements.map(
        ({ name }, at) => [name ?? `cell ${index + 1} statement ${at + 1}`, { index, called: called[index] }] as const,
      ),
    ),
  );
  return (where) => byName.get(/^[^.[]*/.exec(where)?.[0] ?? '');
}
