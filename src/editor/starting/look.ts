import { basename, dirname, relative } from 'node:path';
import * as vscode from 'vscode';
import { slashed } from '../../disk/slashed.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { rootOf } from '../notebooks.ts';
import { chosenFiles } from './chosen.ts';
import { lookPage, useCommand } from './lookPage.ts';

/** A page beside the work: what the files hold over time, what was found in them, and how they were understood. */
export async function showLook(
  engine: EngineThreads,
  clicked?: vscode.Uri,
  selected?: readonly vscode.Uri[],
): Promise<void> {
  const files = await chosenFiles(clicked, selected);
  if (files.length === 0) return;
  const folder = dirname(files[0].fsPath);
  const paths = files.map(({ fsPath }) => slashed(relative(folder, fsPath)));
  const looks = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: vscode.l10n.t('Looking at the recordings') },
    () => engine.look({ folder, root: rootOf(files[0], folder) }, paths),
  );
  const title = paths.length === 1 ? basename(paths[0]) : vscode.l10n.t('{0} files', paths.length);
  const panel = vscode.window.createWebviewPanel(
    'washboardLook',
    vscode.l10n.t('First look at {0}', title),
    vscode.ViewColumn.Active,
    { enableCommandUris: [useCommand], enableFindWidget: true },
  );
  panel.webview.html = lookPage(
    looks,
    files.map((file) => file.toString()),
  );
}
