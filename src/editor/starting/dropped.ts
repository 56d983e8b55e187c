import * as vscode from 'vscode';
import { freeName, isRecordingName } from '../../disk/recordings.ts';
import { foldersOf } from '../notebooks.ts';
import { folderOf, isInProject, nameOf } from '../places.ts';
import { entriesOf, foundIn } from './found.ts';
import { loadOf } from './use.ts';

/**
 * What files that are dropped into a cell become: the statement that loads those among them that are recordings. What comes
 * from outside of the project is copied into its folder of recordings first, for nothing else can be read.
 */
export async function dropped(
  document: vscode.TextDocument,
  position: vscode.Position,
  data: vscode.DataTransfer,
): Promise<vscode.DocumentDropEdit | undefined> {
  const notebook = vscode.workspace.notebookDocuments.find((one) =>
    one.getCells().some((cell) => cell.document === document),
  );
  const folders = notebook && foldersOf(notebook);
  if (notebook === undefined || folders === undefined) return undefined;
  const inside = (await addressesIn(data)).filter((file) => isInProject(folders, file));
  if (inside.length > 0) {
    const text = await loadOf(notebook.uri, inside);
    if (text === undefined) return undefined;
    return new vscode.DocumentDropEdit(asStatement(text, document, position), vscode.l10n.t('Load these recordings'));
  }
  const files = [...data].flatMap(([, item]) => item.asFile() ?? []).filter(({ name }) => isRecordingName(name));
  const found = files.length === 0 ? undefined : await copied(notebook.uri, files);
  if (found === undefined) return undefined;
  const title = vscode.l10n.t('Copy into the project and load');
  const drop = new vscode.DocumentDropEdit(asStatement(found.text, document, position), title);
  drop.additionalEdit = found.edit;
  return drop;
}

/** On a line of its own, unless what stands before it waits for a value or what stands behind it goes on. */
function asStatement(text: string, document: vscode.TextDocument, { line, character }: vscode.Position): string {
  const whole = document.lineAt(line).text;
  const [before, after] = [whole.slice(0, character).trimEnd(), whole.slice(character).trimStart()];
  const begins = before === '' || /[=|,(]$/.test(before);
  const ends = after === '' || /^[|,)]/.test(after);
  return `${begins ? '' : '\n'}${text}${ends ? '' : '\n'}`;
}

/** The recordings that the explorer or a desktop names by their addresses. */
async function addressesIn(data: vscode.DataTransfer): Promise<vscode.Uri[]> {
  const list = (await data.get('text/uri-list')?.asString()) ?? '';
  return list
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => vscode.Uri.parse(line))
    .filter((file) => isRecordingName(nameOf(file)));
}

/** Copies files to where the notebook's recordings lie, under a free name where theirs is taken by another, and loads them from there. */
async function copied(
  notebook: vscode.Uri,
  files: readonly vscode.DataTransferFile[],
): Promise<{ readonly text: string; readonly edit: vscode.WorkspaceEdit } | undefined> {
  const beside = folderOf(notebook);
  const known = (await foundIn(beside)).paths.at(0);
  const raw = known === undefined ? vscode.Uri.joinPath(beside, 'raw') : folderOf(vscode.Uri.joinPath(beside, known));
  const taken = (await entriesOf(raw)).map(({ name }) => name);
  const edit = new vscode.WorkspaceEdit();
  const goals: vscode.Uri[] = [];
  for (const file of files) {
    const named = vscode.Uri.joinPath(raw, file.name);
    const isThere = taken.includes(file.name) && (await holds(named, file));
    const goal = isThere ? named : vscode.Uri.joinPath(raw, freeName(file.name, taken));
    goals.push(goal);
    if (isThere) continue;
    taken.push(nameOf(goal));
    edit.createFile(goal, { contents: file });
  }
  const text = await loadOf(notebook, goals, goals);
  return text === undefined ? undefined : { text, edit };
}

/** Whether a file that is there is the very one that was dropped. */
async function holds(there: vscode.Uri, file: vscode.DataTransferFile): Promise<boolean> {
  const [own, other] = await Promise.all([vscode.workspace.fs.readFile(there), file.data()]);
  return own.length === other.length && own.every((byte, at) => byte === other[at]);
}
