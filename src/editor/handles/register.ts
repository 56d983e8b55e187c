import * as vscode from 'vscode';
import type { Asked, HandleAsked } from '../../charts/handleMessages.ts';
import type { Controller } from '../controller.ts';
import type { EngineThreads } from '../engineThreads.ts';
import type { Moves } from './moves.ts';
import { cellsBehind, textsBehind } from './shownBy.ts';

/** Listens to the charts, whose handles write the text. */
export function registerHandles(
  messaging: vscode.NotebookRendererMessaging,
  engine: EngineThreads,
  controller: Controller,
): vscode.Disposable {
  let moves: Promise<Moves> | undefined;
  return messaging.onDidReceiveMessage(async ({ editor, message }) => {
    if (!isOfHandles(message as Asked)) return;
    moves ??= import('./moves.ts').then(
      (found) =>
        new found.Moves({
          engine,
          update: (notebook, first) => controller.update(notebook, first),
          cellsBehind,
          textsBehind,
          tell: (message, to) => void messaging.postMessage(message, to),
        }),
    );
    await (await moves).receive(message as HandleAsked, editor);
  });
}

const isOfHandles = ({ type }: Asked): boolean => ['move', 'preview', 'make', 'closer', 'undo', 'redo'].includes(type);
