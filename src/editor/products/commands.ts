import * as vscode from 'vscode';
import { activeNotebook } from '../notebooks.ts';

/** Makes something of a notebook, where `target` says if it is named, and else where the user says. */
type Make = (notebook: vscode.NotebookDocument, log: vscode.LogOutputChannel, target?: unknown) => Promise<void>;

/** Commands that make files of a notebook by the command line; the part that does so is loaded with the first of them. */
export function registerProducts(context: vscode.ExtensionContext, log: vscode.LogOutputChannel): vscode.Disposable {
  const load = (): Promise<typeof import('./parts.ts')> => import('./parts.ts');
  type Parts = Awaited<ReturnType<typeof load>>;
  const on = (command: string, make: (parts: Parts) => Make): vscode.Disposable =>
    vscode.commands.registerCommand(command, async (given?: unknown, target?: unknown) => {
      const notebook = activeNotebook(given);
      if (notebook !== undefined) await make(await load())(notebook, log, target);
    });
  // Nobody waits for these, and the start of the editor waits for nothing here.
  const later = setTimeout(() => {
    load()
      .then(({ offerInTerminals }) => offerInTerminals(context))
      .catch((error: unknown) => log.warn(String(error)));
  }, 3000);
  return vscode.Disposable.from(
    on('washboard.report', ({ saveReport }) => saveReport),
    on('washboard.figures', ({ saveFigures }) => saveFigures),
    on('washboard.tables', ({ saveTables }) => saveTables),
    on('washboard.record', ({ writeRecord }) => writeRecord),
    on('washboard.copyTables', ({ copyTables }) => copyTables),
    vscode.tasks.registerTaskProvider('washboard', {
      provideTasks: async (token) => (await load()).tasks.provideTasks(token),
      resolveTask: async (task, token) => (await load()).tasks.resolveTask(task, token),
    }),
    { dispose: () => clearTimeout(later) },
  );
}
