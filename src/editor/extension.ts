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
import { notebookType } from './names.ts';
import { registerProducts } from './products/commands.ts';
import { registerReference } from './reference.ts';
import { registerSheet } from './sheetCommand.ts';
import { serializer } from './serializer.ts';
import { threadsWanted } from './settings.ts';
import { registerStarting } from './starting/commands.ts';
import { watchStaleness } from './staleness.ts';
import { registerStaleCells } from './staleCells.ts';
import { registerStatusBar } from './statusBar.ts';

/** Wires the parts together; what knows the language comes last, for a notebook opens without it. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const script = join(context.extensionPath, 'dist', 'worker.mjs');
  const engine = new EngineThreads(() => new EngineThread(script), threadsWanted);
  const log = vscode.window.createOutputChannel('Washboard', { log: true });
  const states = new CellStates();
  const controller = new Controller(engine, states, log);
  const prefer = (notebook: vscode.NotebookDocument): void => {
    if (notebook.notebookType === notebookType) controller.prefer(notebook);
  };
  vscode.workspace.notebookDocuments.forEach(prefer);
  context.subscriptions.push(
    log,
    vscode.workspace.registerNotebookSerializer(notebookType, serializer, { transientOutputs: true }),
    vscode.workspace.onDidOpenNotebookDocument(prefer),
    registerStatusBar(states),
    registerStaleCells(states),
    watchStaleness(controller, states),
    forgetClosed(engine),
    registerCommands(controller, context.extensionUri, log),
    registerStarting(engine),
    registerSheet(),
    registerChanged(engine),
    registerHandles(engine, controller),
    registerProducts(context, log),
    registerReference(context.extensionUri),
    controller,
    states,
    { dispose: () => void engine.dispose() },
  );
  const [{ registerLanguage }, { registerProse }] = await Promise.all([
    import('./language/register.ts'),
    import('./prose/register.ts'),
  ]);
  context.subscriptions.push(registerLanguage(engine, context.extensionUri), registerProse(engine));
}
