import * as vscode from 'vscode';
import type { Display } from '../charts/display.ts';
import { here } from './here.ts';

/** How many notebooks may be computed at the same time, each in a thread of its own. */
export function threadsWanted(): number {
  const wanted = vscode.workspace.getConfiguration('washboard').get<number>('threads', 0);
  // Even on one processor a short work should not wait for a long one; more than a few only take memory.
  return wanted >= 1 ? Math.floor(wanted) : Math.min(4, Math.max(2, here().processors));
}

/** How results are to be shown in a notebook, as its settings say. */
export function displayWanted({ uri }: vscode.NotebookDocument): Display {
  const settings = vscode.workspace.getConfiguration('washboard', uri);
  const acceleration = settings.get<string>('accelerationUnit');
  const palette = settings.get<string>('palette');
  const digits = settings.get<number>('digits', 4);
  return {
    ...(Number.isInteger(digits) && digits >= 2 && digits <= 10 ? { digits } : {}),
    ...(acceleration === 'g' ? { acceleration } : acceleration === 'm/s²' ? { acceleration: 'm/s^2' } : {}),
    ...(palette === 'second' || palette === 'grey' ? { palette } : {}),
  };
}

/** By what it is known what a cell shows: its content key, and how results are to be shown. */
export const shownKey = (key: string, notebook: vscode.NotebookDocument): string =>
  `${key}-${JSON.stringify(displayWanted(notebook))}`;
