import * as vscode from 'vscode';
import { compareRecords, writtenByAnother } from '../../notebook/compareRecords.ts';
import { makeRecord, parseRecord, type RunDocument } from '../../notebook/record.ts';
import type { ProjectFolders } from '../../engine/service.ts';
import { cellNameOf, cellWords } from '../../language/cellName.ts';
import { recordPath } from '../../result/fileNames.ts';
import { tool } from '../../result/version.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { errorOf, sentence } from '../messages.ts';
import type { Json } from '../../values/json.ts';
import { languageId, notebookType } from '../names.ts';
import { codeCells, foldersOf, numbersOf, runFoldersOf, textsOf } from '../notebooks.ts';
import { nameOf } from '../places.ts';
import { changedPage, revealCommand, type ChangedPage } from './page.ts';
import type { Recorded } from './recorded.ts';

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
  if (folders.base !== undefined) return void vscode.window.showWarningMessage(sentence('git.elsewhere', {}));
  const { recordAt } = await import('./recordInGit.ts');
  const found = await recordAt(folders.folder, nameOf(recordOf(notebook)), revision);
  if (found === undefined) return;
  if (!found.ok) return void vscode.window.showWarningMessage(found.failure.message);
  await show(engine, notebook, folders, { title: vscode.l10n.t('What changed'), ...found.value });
}

/** Runs a notebook as it stands in the editor, and shows beside it what differs from the record that lies beside it. */
export async function showVerified(engine: EngineThreads, notebook: vscode.NotebookDocument): Promise<void> {
  const folders = foldersOf(notebook);
  if (folders === undefined) return void vscode.window.showWarningMessage(sentence('notebook.unsaved', {}));
  const file = recordOf(notebook);
  const name = nameOf(notebook.uri);
  const text = await vscode.workspace.fs.readFile(file).then(
    (bytes) => new TextDecoder().decode(bytes),
    () => undefined,
  );
  if (text === undefined) return void vscode.window.showWarningMessage(sentence('record.missing', { notebook: name }));
  const record = parseRecord(text);
  if (!record.ok) return void vscode.window.showWarningMessage(record.failure.message);
  await show(engine, notebook, folders, {
    title: vscode.l10n.t('Verify'),
    record: record.value,
    against: nameOf(file),
  });
}

async function show(
  engine: EngineThreads,
  notebook: vscode.NotebookDocument,
  folders: ProjectFolders,
  { title, record, against }: Recorded & { readonly title: string },
): Promise<void> {
  const name = nameOf(notebook.uri);
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

/** Results of a notebook that is open, as the command line gives them as JSON; undefined where it is none of ours. */
export async function resultsOf(engine: EngineThreads, uri: vscode.Uri): Promise<Json | undefined> {
  const notebook = vscode.workspace.notebookDocuments.find((one) => one.uri.toString() === uri.toString());
  if (notebook?.notebookType !== notebookType) return undefined;
  const cells = textsOf(codeCells(notebook, languageId));
  return engine.document(runFoldersOf(notebook), nameOf(uri), cells, () => undefined);
}

/** The record that belongs to a notebook lies beside it. */
const recordOf = ({ uri }: vscode.NotebookDocument): vscode.Uri => uri.with({ path: recordPath(uri.path) });

/** What a reader finds each cell by, as the editor counts them now. */
function namesOf(cells: readonly vscode.NotebookCell[]): string[] {
  const notebook = { cells: textsOf(cells).map((text) => ({ text })), numbers: numbersOf(cells) };
  return notebook.cells.map((_, cell) => cellWords(cellNameOf(notebook, cell)));
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
