import { join } from 'node:path';
import * as vscode from 'vscode';
import { CellStates } from './cellStates.ts';
import { registerChanged } from './changed/command.ts';
import { registerCommands } from './commands.ts';
import { Controller } from './controller.ts';
import { EngineThread } from './engineThread.ts';
import { EngineThreads } from './engineThreads.ts';
import { forgetClosed } from './forgetting.ts';
import { registerHandles } from './handles/register.ts';
import type { KeptOutputs } from './keptOutputs.ts';
import { engineIn } from './node/engine.ts';
import { notebookType } from './names.ts';
import { registerProducts } from './products/commands.ts';
import { registerReference } from './reference.ts';
import { registerSheet } from './sheetCommand.ts';
import { serializer } from './serializer.ts';
import { threadsWanted } from './settings.ts';
import { registerStarting } from './starting/commands.ts';
import { watchStaleness } from './staleness.ts';
import { registerStatusBar } from './statusBar.ts';

/** Wires the parts together; what knows the language comes last, for a notebook opens without it. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const script = join(context.extensionPath, 'dist', 'worker.mjs');
  const engine = new EngineThreads(() => new EngineThread(engineIn(script)), threadsWanted);
  const log = vscode.window.createOutputChannel('Washboard', { log: true });
  const states = new CellStates();
  const kept = keptIn(join((context.storageUri ?? context.globalStorageUri).fsPath, 'outputs'));
  const controller = new Controller(engine, states, kept, log);
  const messaging = vscode.notebooks.createRendererMessaging('washboard-renderer');
  const prefer = (notebook: vscode.NotebookDocument): void => {
    if (notebook.notebookType === notebookType) controller.prefer(notebook);
  };
  vscode.workspace.notebookDocuments.forEach(prefer);
  context.subscriptions.push(
    log,
    vscode.workspace.registerNotebookSerializer(notebookType, serializer, { transientOutputs: true }),
    vscode.workspace.onDidOpenNotebookDocument(prefer),
    registerStatusBar(states),
    watchStaleness(controller, states),
    forgetClosed(engine),
    registerCommands(controller, context.extensionUri, log),
    registerStarting(engine),
    registerSheet(),
    registerChanged(engine),
    registerHandles(messaging, engine, controller),
    registerProducts(context, log, messaging),
    registerReference(context.extensionUri),
    controller,
    states,
    { dispose: () => void engine.dispose() },
  );
  const [{ registerShownOutputs }, { registerLanguage }, { registerProse }] = await Promise.all([
    import('./shownOutputs.ts'),
    import('./language/register.ts'),
    import('./prose/register.ts'),
  ]);
  context.subscriptions.push(
    registerShownOutputs(controller, states, kept, messaging),
    registerLanguage(engine, context.extensionUri),
    registerProse(engine),
  );
}

/** The store of outputs, made when it is asked for. */
function keptIn(folder: string): () => Promise<KeptOutputs> {
  let kept: Promise<KeptOutputs> | undefined;
  return () => (kept ??= import('./keptOutputs.ts').then((found) => new found.KeptOutputs(folder)));
}
