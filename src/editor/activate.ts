import * as vscode from 'vscode';
import { loggable } from '../result/environment.ts';
import type { Json } from '../values/json.ts';
import { CellStates } from './cellStates.ts';
import { registerChanged } from './changed/command.ts';
import { registerCommands } from './commands.ts';
import { Controller } from './controller.ts';
import { EngineThread } from './engineThread.ts';
import { EngineThreads } from './engineThreads.ts';
import { forgetClosed } from './forgetting.ts';
import { registerHandles } from './handles/register.ts';
import { here, runsOn } from './here.ts';
import type { KeptOutputs } from './keptOutputs.ts';
import { notebookType } from './names.ts';
import type { Platform } from './platform.ts';
import { registerReference } from './reference.ts';
import { serializer } from './serializer.ts';
import { threadsWanted } from './settings.ts';
import { registerStarting } from './starting/commands.ts';
import { watchStaleness } from './staleness.ts';
import { registerStatusBar } from './statusBar.ts';

/** What other extensions may ask. */
export interface Washboard {
  /** Results of a notebook that is open, as `washboard run --json` gives them; undefined where it is none of ours. */
  results(notebook: vscode.Uri): Promise<Json | undefined>;
}

/** Wires the parts together; what knows the language comes once the editor no longer waits, for a notebook opens without it. */
export function activateOn(platform: Platform, context: vscode.ExtensionContext): Washboard {
  runsOn(platform);
  const engine = new EngineThreads(() => new EngineThread(platform.startEngine), threadsWanted);
  const log = vscode.window.createOutputChannel('Washboard', { log: true });
  const states = new CellStates();
  const kept = keptOutputs();
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
    registerStarting(engine, context.workspaceState),
    registerChanged(engine),
    registerHandles(messaging, engine, controller),
    platform.registerProducts(context, log, messaging),
    registerReference(context.extensionUri),
    controller,
    states,
    { dispose: () => void engine.dispose() },
  );
  const registerRest = async (): Promise<void> => {
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
  };
  setTimeout(() => void registerRest().catch((error: unknown) => log.error(loggable(error))));
  return { results: async (notebook) => (await import('./changed/show.ts')).resultsOf(engine, notebook) };
}

/** The store of outputs, made when it is asked for. */
function keptOutputs(): () => Promise<KeptOutputs> {
  let kept: Promise<KeptOutputs> | undefined;
  return () => (kept ??= import('./keptOutputs.ts').then(async (found) => new found.KeptOutputs(await here().texts())));
}
