import * as vscode from 'vscode';
import type { CellStates } from './cellStates.ts';
import type { Controller } from './controller.ts';
import type { KeptOutputs } from './keptOutputs.ts';
import { registerMessageLinks } from './messageLinks.ts';
import { registerPageWords } from './pageWords.ts';
import { registerRestoring } from './restoring.ts';
import { registerStaleCells } from './staleCells.ts';
import { registerStaleMarks } from './staleMarks.ts';

/** What is shown again, what of it is out of date, in which words, and where its messages lead. */
export const registerShownOutputs = (
  controller: Controller,
  states: CellStates,
  kept: () => Promise<KeptOutputs>,
  messaging: vscode.NotebookRendererMessaging,
): vscode.Disposable =>
  vscode.Disposable.from(
    registerRestoring(controller, states, kept),
    registerStaleCells(controller, states),
    registerStaleMarks(messaging, states),
    registerMessageLinks(messaging),
    registerPageWords(messaging),
  );
