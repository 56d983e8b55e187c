import * as vscode from 'vscode';
import type { Output } from '../charts/output.ts';
import { cellOutput } from './outputs.ts';
import { reasonOfException } from '../result/environment.ts';

/** One cell while it is run: what it gave so far, and its execution, which ends once. */
export class CellRun {
  readonly execution: vscode.NotebookCellExecution;
  /** Whether it has not ended, and whether it has and shows what it gave. */
  isOpen = true;
  isShown = false;
  readonly #all: readonly vscode.NotebookCell[];
  #ending: Promise<void> | undefined;
  readonly #given: { readonly output: Output; readonly line: number }[] = [];

  /** @param all the notebook's code cells as they are run */
  constructor(execution: vscode.NotebookCellExecution, all: readonly vscode.NotebookCell[]) {
    this.execution = execution;
    this.#all = all;
  }

  /** What it gave, in the order of the text. */
  get outputs(): readonly Output[] {
    return this.#given.sort((a, b) => a.line - b.line).map(({ output }) => output);
  }

  add(output: Output, line: number): void {
    this.#given.push({ output, line });
  }

  /** Shows what it gave; settles when that is there, though it had been asked before. */
  async end(ok: boolean): Promise<void> {
    if (this.isOpen) this.#ending = this.#show(ok);
    await this.#ending;
  }

  async #show(ok: boolean): Promise<void> {
    this.isOpen = false;
    this.isShown = true;
    await this.execution.replaceOutput(this.outputs.map((output) => cellOutput(output, this.#all)));
    this.execution.end(ok, Date.now());
  }

  /** Ends without showing anything new. */
  async leave(success: boolean | undefined): Promise<void> {
    if (!this.isOpen) return;
    this.isOpen = false;
    this.execution.end(success, Date.now());
  }

  /** Shows an error of ours. */
  async fail(error: unknown): Promise<void> {
    if (!this.isOpen) return;
    const item = vscode.NotebookCellOutputItem.error(withoutStack(error));
    await this.execution.replaceOutput(new vscode.NotebookCellOutput([item]));
    await this.leave(false);
  }
}

/** An error as its sentence alone: the editor would show where in the program it came from. */
function withoutStack(error: unknown): Error {
  const shown = new Error(reasonOfException(error));
  shown.stack = '';
  return shown;
}
