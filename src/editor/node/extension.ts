import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type * as vscode from 'vscode';
import { projectRoot } from '../../disk/project.ts';
import { activateOn, type Washboard } from '../activate.ts';
import { registerProducts } from '../products/commands.ts';
import { engineIn } from './engine.ts';

/** The extension in an editor that runs it in Node: on a desktop, or on a server. */
export const activate = (context: vscode.ExtensionContext): Washboard =>
  activateOn(
    {
      startEngine: engineIn(join(context.extensionPath, 'dist', 'worker.mjs')),
      processors: availableParallelism(),
      pathOf: ({ scheme, fsPath }) => (scheme === 'file' ? fsPath : undefined),
      projectRoot,
      disk: async () => (await import('./localFiles.ts')).nodeDisk,
      head: async (file, bytes) => (await import('./localFiles.ts')).head(file, bytes),
      texts: async () => {
        const { TextStore } = await import('../../disk/textStore.ts');
        return new TextStore(join((context.storageUri ?? context.globalStorageUri).fsPath, 'outputs'));
      },
      registerProducts,
    },
    context,
  );
