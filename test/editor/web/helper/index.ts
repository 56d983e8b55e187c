import * as vscode from 'vscode';
import { ServedFolder } from './served.ts';
import { studyInBrowser } from './study.ts';

/** Gives the workspace its files, and works through the study; what came of it is told to whoever serves the page. */
export function activate(context: vscode.ExtensionContext): void {
  const { scheme, authority } = context.extensionUri;
  const origin = `${scheme}://${authority}`;
  context.subscriptions.push(
    vscode.workspace.registerFileSystemProvider('washboard-test', new ServedFolder(origin), { isCaseSensitive: true }),
  );
  const tell = async (name: string, told: unknown): Promise<void> =>
    void (await fetch(`${origin}/report/${name}`, { method: 'PUT', body: JSON.stringify(told) }));
  studyInBrowser(tell).then(
    () => tell('end', { ok: true }),
    (error: unknown) =>
      tell('end', { ok: false, error: error instanceof Error ? (error.stack ?? error.message) : String(error) }),
  );
}
