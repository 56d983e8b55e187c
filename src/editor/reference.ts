import * as vscode from 'vscode';
import { anchorOf } from './language/anchor.ts';
import { pagedCodes } from './pagedCodes.ts';

export const referenceCommand = 'washboard.openReference';

/** An address for our own Markdown that opens the reference at a heading: a verb, a function or a message's code. */
export const openReference = (title: string): vscode.Uri =>
  vscode.Uri.parse(`command:${referenceCommand}?${encodeURIComponent(JSON.stringify([title]))}`);

/**
 * The address of a message's page, where it has one. The editor follows no command from a problem's code, but an
 * address that it hands to us.
 */
export const pageOf = (code: string): vscode.Uri | undefined =>
  pagedCodes.has(code)
    ? vscode.Uri.from({ scheme: vscode.env.uriScheme, authority: extensionId, path: '/reference', query: code })
    : undefined;

const extensionId = 'washboard-notebooks.washboard';

/** The language reference as a page beside the notebook. */
export function registerReference(extension: vscode.Uri): vscode.Disposable {
  const file = vscode.Uri.joinPath(extension, 'media', 'reference.md');
  const open = (title?: unknown): Thenable<unknown> => {
    const fragment = typeof title === 'string' ? anchorOf(title) : '';
    return vscode.commands.executeCommand('markdown.showPreviewToSide', file.with({ fragment }));
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand(referenceCommand, open),
    vscode.window.registerUriHandler({
      handleUri: ({ path, query }) => (path === '/reference' ? void open(query) : undefined),
    }),
  );
}
