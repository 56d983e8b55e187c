import * as vscode from 'vscode';
import type { Asked, TakingAsked } from '../../charts/handleMessages.ts';
import { sentence } from '../messages.ts';
import { activeNotebook, foldersOf } from '../notebooks.ts';
import type { PictureOrder } from './taking.ts';
import { reasonOfException } from '../../result/environment.ts';

/** Makes something of a notebook, where `target` says if it is named, and else where the user says. */
type Make = (notebook: vscode.NotebookDocument, log: vscode.LogOutputChannel, target?: unknown) => Promise<void>;

/** Commands that make files of a notebook by the command line; the part that does so is loaded with the first of them. */
export function registerProducts(
  context: vscode.ExtensionContext,
  log: vscode.LogOutputChannel,
  messaging: vscode.NotebookRendererMessaging,
): vscode.Disposable {
  const load = (): Promise<typeof import('./parts.ts')> => import('./parts.ts');
  type Parts = Awaited<ReturnType<typeof load>>;
  const on = (command: string, make: (parts: Parts) => Make): vscode.Disposable =>
    vscode.commands.registerCommand(command, async (given?: unknown, target?: unknown) => {
      const notebook = activeNotebook(given);
      if (notebook === undefined) return;
      // Before anything is asked for that could not be made.
      if (foldersOf(notebook)?.base !== undefined)
        return void vscode.window.showWarningMessage(sentence('product.elsewhere', {}));
      await make(await load())(notebook, log, target);
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
    // Which chart, and where it goes, come with it: it is for keys and other extensions.
    vscode.commands.registerCommand(
      'washboard.savePicture',
      async (output: string, chart: number, order: PictureOrder) => {
        const editor = vscode.window.activeNotebookEditor;
        if (editor !== undefined) await (await load()).savePicture({ editor, log, messaging }, output, chart, order);
      },
    ),
    messaging.onDidReceiveMessage(async ({ editor, message }) => {
      const asked = message as Asked;
      if (isTaking(asked)) await (await load()).take(asked, { editor, log, messaging }).catch(showReason);
    }),
    vscode.tasks.registerTaskProvider('washboard', {
      provideTasks: async (token) => (await load()).tasks.provideTasks(token),
      resolveTask: async (task, token) => (await load()).tasks.resolveTask(task, token),
    }),
    { dispose: () => clearTimeout(later) },
  );
}

const takings: readonly string[] = ['save picture', 'save text', 'copy text', 'copy number', 'rasterised'];
const isTaking = (asked: Asked): asked is TakingAsked => takings.includes(asked.type);

const showReason = (error: unknown): void => void vscode.window.showErrorMessage(reasonOfException(error));
