import * as vscode from 'vscode';
import type { EngineThreads } from '../engineThreads.ts';
import { folderOf, nameOf, pathFrom, placeOf } from '../places.ts';
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
  const folder = folderOf(files[0]);
  const place = placeOf(folder);
  if (place === undefined) return;
  const paths = files.map((file) => pathFrom(folder, file));
  const looks = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: vscode.l10n.t('Looking at the recordings') },
    () => engine.look(place, paths),
  );
  const title = paths.length === 1 ? nameOf(files[0]) : vscode.l10n.t('{0} files', paths.length);
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
