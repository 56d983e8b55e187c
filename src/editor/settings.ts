import { availableParallelism } from 'node:os';
import * as vscode from 'vscode';

/** How many notebooks may be computed at the same time, each in a thread of its own. */
export function threadsWanted(): number {
  const wanted = vscode.workspace.getConfiguration('washboard').get<number>('threads', 0);
  // Even on one processor a short work should not wait for a long one; more than a few only take memory.
  return wanted >= 1 ? Math.floor(wanted) : Math.min(4, Math.max(2, availableParallelism()));
}
