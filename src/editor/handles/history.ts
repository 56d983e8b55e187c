import * as vscode from 'vscode';
import { errorOf } from '../messages.ts';
import { reversed, stands, takeOut, write, writeBelow, type Part } from './written.ts';

/** What a chart wrote by one edit: parts of cells, or a cell below another. */
type Step =
  | { readonly parts: readonly Part[] }
  | { readonly above: vscode.NotebookCell; readonly text: string; readonly cell: vscode.NotebookCell | undefined };

/** What the charts of a notebook wrote, to be taken back and done again from where they are: the editor's own keys don't reach them. */
export class History {
  readonly #notebook: vscode.NotebookDocument;
  #undo: Step[] = [];
  #redo: Step[] = [];

  constructor(notebook: vscode.NotebookDocument) {
    this.#notebook = notebook;
  }

  /** Writes parts of cells by one edit. */
  async write(parts: readonly Part[]): Promise<void> {
    await write(parts);
    this.#wrote({ parts: reversed(parts) });
  }

  /** Puts a new cell below another. */
  async writeBelow(above: vscode.NotebookCell, text: string): Promise<vscode.NotebookCell> {
    const cell = await writeBelow(this.#notebook, above, text);
    this.#wrote({ above, text, cell });
    return cell;
  }

  #wrote(step: Step): void {
    this.#undo.push(step);
    this.#redo = [];
  }

  /** Takes the last step back, or does it again; false if there is none, an error where the text was edited there since. */
  async again(which: 'undo' | 'redo'): Promise<boolean> {
    const [from, to] = which === 'undo' ? [this.#undo, this.#redo] : [this.#redo, this.#undo];
    const step = from.pop();
    if (step === undefined) return false;
    to.push(await this.#turned(step));
    return true;
  }

  /** Does a step, and gives the one that takes it back. */
  async #turned(step: Step): Promise<Step> {
    if ('parts' in step) {
      if (!stands(this.#notebook, step.parts)) throw errorOf('handle.edited', {});
      await write(step.parts);
      return { parts: reversed(step.parts) };
    }
    const { above, text, cell } = step;
    const cells = this.#notebook.getCells();
    if (cell === undefined) {
      if (!cells.includes(above)) throw errorOf('handle.edited', {});
      return { above, text, cell: await writeBelow(this.#notebook, above, text) };
    }
    if (!cells.includes(cell) || cell.document.getText() !== text) throw errorOf('handle.edited', {});
    await takeOut(this.#notebook, cell);
    return { above, text, cell: undefined };
  }
}
