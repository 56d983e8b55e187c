import * as vscode from 'vscode';

export interface CellState {
  /** Work in hand, such as `reading raw/a.csv, 40 %`. */
  readonly progress?: string;
  /** Whether what the cell shows no longer follows from the notebook and its raw files. */
  readonly stale?: boolean;
  /** The sentence that says what made it so. */
  readonly why?: string;
  /** Content key of what the cell shows. */
  readonly key?: string;
  /** Whether that is from a run before the notebook was opened or read anew. */
  readonly earlier?: boolean;
}

/** What is known of each cell beyond its output; never written to the file. */
export class CellStates {
  readonly #states = new WeakMap<vscode.NotebookCell, CellState>();
  readonly #changed = new vscode.EventEmitter<void>();
  readonly onDidChange = this.#changed.event;

  get(cell: vscode.NotebookCell): CellState {
    return this.#states.get(cell) ?? {};
  }

  set(cell: vscode.NotebookCell, state: CellState): void {
    const before = this.get(cell);
    this.#states.set(cell, state);
    const isSeen = (['progress', 'stale', 'why', 'earlier'] as const).some((one) => before[one] !== state[one]);
    if (isSeen) this.#changed.fire();
  }

  dispose(): void {
    this.#changed.dispose();
  }
}
