import * as vscode from 'vscode';
import { codes } from '../language/messages.ts';
import { anchorOf } from './language/anchor.ts';

export const referenceCommand = 'washboard.openReference';

/** An address that opens the reference at a heading: a verb, a function or a message's code. */
export const openReference = (title: string): vscode.Uri =>
  vscode.Uri.parse(`command:${referenceCommand}?${encodeURIComponent(JSON.stringify([title]))}`);

const pages: ReadonlySet<string> = new Set(codes);

/** The page of a message's code, where there is one. */
export const pageOf = (code: string): vscode.Uri | undefined => (pages.has(code) ? openReference(code) : undefined);

/** The language reference as a page beside the notebook. */
export function registerReference(extension: vscode.Uri): vscode.Disposable {
  const file = vscode.Uri.joinPath(extension, 'media', 'reference.md');
  return vscode.commands.registerCommand(referenceCommand, (title?: unknown) => {
    const fragment = typeof title === 'string' ? anchorOf(title) : '';
    return vscode.commands.executeCommand('markdown.showPreviewToSide', file.with({ fragment }));
  });
}
