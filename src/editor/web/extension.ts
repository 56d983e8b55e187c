import * as vscode from 'vscode';
import { activateOn, type Washboard } from '../activate.ts';
import { firstBytes } from '../firstBytes.ts';
import { engineFrom } from './engine.ts';
import { readParts } from './parts.ts';
import { registerProducts } from './products.ts';
import { StoredTexts } from './texts.ts';

/** The extension in an editor that runs it in a browser. */
export async function activate(context: vscode.ExtensionContext): Promise<Washboard> {
  const dist = vscode.Uri.joinPath(context.extensionUri, 'dist');
  await readParts(dist);
  void vscode.commands.executeCommand('setContext', 'washboard.browser', true);
  const { navigator } = globalThis as { readonly navigator?: { readonly hardwareConcurrency?: number } };
  return activateOn(
    {
      startEngine: engineFrom(dist),
      processors: navigator?.hardwareConcurrency ?? 2,
      // No address is a path on a disk that could be read from here.
      pathOf: () => undefined,
      projectRoot: (folder) => folder,
      disk: () => Promise.reject(new Error('a browser has no disk')),
      head: firstBytes,
      texts: () =>
        Promise.resolve(
          new StoredTexts(vscode.Uri.joinPath(context.storageUri ?? context.globalStorageUri, 'outputs')),
        ),
      registerProducts: (_context, _log, messaging) => registerProducts(messaging),
    },
    context,
  );
}
