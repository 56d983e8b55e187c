import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import * as vscode from 'vscode';
import { notebookStem } from '../../result/fileNames.ts';
import { foldersOf } from '../notebooks.ts';
import { addressIn } from '../places.ts';
import { sentence } from '../messages.ts';
import { locationArguments, runCommandLine, type CommandEnd } from './commandLine.ts';

/** What a command makes of a notebook: its words, and what it is asked for. */
interface Work {
  readonly title: string;
  readonly command: string;
  readonly args: readonly string[];
}

/** The notebook's page, saved where the user says and opened in the browser. */
export async function saveReport(
  notebook: vscode.NotebookDocument,
  log: vscode.LogOutputChannel,
  given?: unknown,
): Promise<void> {
  const named = given instanceof vscode.Uri ? given : undefined;
  const target =
    named ??
    (await vscode.window.showSaveDialog({
      title: vscode.l10n.t('Save the Report'),
      defaultUri: vscode.Uri.file(bareName(notebook) + '.html'),
      filters: { [vscode.l10n.t('Web page')]: ['html'] },
    }));
  if (target === undefined) return;
  // The dialog has asked whether a file that is there may be replaced.
  const args = ['--out', target.fsPath, '--force'];
  const end = await runOn(notebook, log, { title: vscode.l10n.t('Writing the report'), command: 'report', args });
  // Who named the file, a task or another extension, goes on with it; a browser elsewhere can't open it.
  if (end !== undefined && named === undefined && vscode.env.remoteName === undefined)
    await vscode.env.openExternal(target);
}

/** Every chart for print, in a folder that the user picks. */
export async function saveFigures(
  notebook: vscode.NotebookDocument,
  log: vscode.LogOutputChannel,
  given?: unknown,
): Promise<void> {
  if (given instanceof vscode.Uri) return figuresInto(notebook, log, given, 'svg,pdf');
  const formats = await vscode.window.showQuickPick(
    [
      { label: 'SVG', description: vscode.l10n.t('vector, for the web and for drawing programs'), format: 'svg' },
      { label: 'PDF', description: vscode.l10n.t('vector with its font, for print'), format: 'pdf', picked: true },
    ],
    { title: vscode.l10n.t('Save Figures'), canPickMany: true, placeHolder: vscode.l10n.t('Format') },
  );
  if (formats === undefined || formats.length === 0) return;
  const folder = await askFolder(notebook, vscode.l10n.t('Save the Figures Here'));
  if (folder === undefined) return;
  await figuresInto(notebook, log, folder, formats.map(({ format }) => format).join(','));
}

async function figuresInto(
  notebook: vscode.NotebookDocument,
  log: vscode.LogOutputChannel,
  folder: vscode.Uri,
  format: string,
): Promise<void> {
  const args = ['--out', folder.fsPath, '--format', format];
  await runOn(notebook, log, { title: vscode.l10n.t('Writing the figures'), command: 'figures', args }, folder);
}

/** Every table as a file, in a folder that the user picks. */
export async function saveTables(notebook: vscode.NotebookDocument, log: vscode.LogOutputChannel): Promise<void> {
  const format = await vscode.window.showQuickPick(
    [
      { label: 'CSV', format: 'csv' },
      { label: 'Parquet', format: 'parquet' },
    ],
    { title: vscode.l10n.t('Save Tables'), placeHolder: vscode.l10n.t('Format') },
  );
  const folder = format && (await askFolder(notebook, vscode.l10n.t('Save the Tables Here')));
  if (folder === undefined) return;
  const args = ['--out', folder.fsPath, '--format', format?.format ?? 'csv'];
  await runOn(notebook, log, { title: vscode.l10n.t('Writing the tables'), command: 'tables', args }, folder);
}

/** The record beside the notebook. */
export async function writeRecord(notebook: vscode.NotebookDocument, log: vscode.LogOutputChannel): Promise<void> {
  const end = await runOn(notebook, log, { title: vscode.l10n.t('Writing the record'), command: 'record', args: [] });
  if (end?.code === 0) void vscode.window.showInformationMessage(end.printed.trim());
}

/** One of the notebook's tables, or all of them below each other, to be pasted into another program. */
export async function copyTables(notebook: vscode.NotebookDocument, log: vscode.LogOutputChannel): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'washboard-tables-'));
  try {
    const args = ['--out', folder];
    const end = await runOn(notebook, log, { title: vscode.l10n.t('Making the tables'), command: 'tables', args });
    if (end === undefined) return;
    const names = (await readdir(folder)).filter((name) => name.endsWith('.csv')).sort();
    if (names.length === 0) return void vscode.window.showInformationMessage(sentence('tables.none', {}));
    const all = { label: vscode.l10n.t('All tables'), names };
    const picked = await vscode.window.showQuickPick(
      [all, ...names.map((name) => ({ label: name.replace(/\.csv$/, ''), names: [name] }))],
      { title: vscode.l10n.t('Copy Results as CSV') },
    );
    if (picked === undefined) return;
    const texts = await Promise.all(picked.names.map((name) => readFile(join(folder, name), 'utf8')));
    await vscode.env.clipboard.writeText(texts.join('\n'));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const bareName = ({ uri }: vscode.NotebookDocument): string => notebookStem(uri.fsPath);

async function askFolder(notebook: vscode.NotebookDocument, openLabel: string): Promise<vscode.Uri | undefined> {
  const folders = foldersOf(notebook);
  const picked = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    openLabel,
    ...(folders === undefined ? {} : { defaultUri: addressIn(folders, '.') }),
  });
  return picked?.at(0);
}

/** Runs a command on the notebook as it stands; undefined where it made nothing, which the user has been told then. */
export async function runOn(
  notebook: vscode.NotebookDocument,
  log: vscode.LogOutputChannel,
  { title, command, args }: Work,
  made?: vscode.Uri,
): Promise<CommandEnd | undefined> {
  const folders = foldersOf(notebook);
  if (folders === undefined) return void vscode.window.showWarningMessage(sentence('notebook.unsaved', {}));
  if (folders.base !== undefined) return void vscode.window.showWarningMessage(sentence('product.elsewhere', {}));
  // The command line reads the file.
  if (notebook.isDirty && !(await notebook.save())) return undefined;
  const location = locationArguments(notebook.uri.fsPath, folders);
  const said = [command, ...location.args, ...args];
  log.info(`washboard ${said.join(' ')}`);
  const end = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title, cancellable: true },
    (_progress, token) => runCommandLine(said, location.cwd, (stop) => void token.onCancellationRequested(stop)),
  );
  for (const text of [end.printed, end.complaints]) if (text !== '') log.info(text.trimEnd());
  if (end.code === undefined) return undefined;
  if (end.code === 0 && made !== undefined) void reveal(made, end.printed);
  if (end.code !== 0) void warn(end, log, basename(notebook.uri.fsPath));
  return end.code === 2 ? undefined : end;
}

async function reveal(folder: vscode.Uri, printed: string): Promise<void> {
  const count = printed.trim().split('\n').length;
  const show = vscode.l10n.t('Show in Folder');
  const message = sentence('files.written', { count, folder: folder.fsPath });
  if ((await vscode.window.showInformationMessage(message, show)) === show)
    await vscode.commands.executeCommand('revealFileInOS', folder);
}

/** What it complained of, in its own words; what failed in a cell is in the product too. */
async function warn({ code, complaints }: CommandEnd, log: vscode.LogOutputChannel, notebook: string): Promise<void> {
  const show = vscode.l10n.t('Show Log');
  const message = code === 1 ? sentence('statements.failed', { notebook }) : complaints.trim();
  if ((await vscode.window.showWarningMessage(message, show)) === show) log.show(true);
}
