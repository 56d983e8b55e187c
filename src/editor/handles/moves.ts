import * as vscode from 'vscode';
import type { Literal, TextEdit } from '../../charts/handle.ts';
import type { HandleAsked, Told } from '../../charts/handleMessages.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { errorOf } from '../messages.ts';
import { languageId } from '../names.ts';
import { codeCells, foldersOf, textsOf } from '../notebooks.ts';
import { idIn } from './shownBy.ts';
import { reasonOfException } from '../../result/environment.ts';

/** What moving a literal needs of the editor's other parts. */
export interface Around {
  readonly engine: EngineThreads;
  /** Runs what an edit made out of date, some cells first. */
  update(notebook: vscode.NotebookDocument, first: readonly vscode.NotebookCell[]): Promise<void>;
  /** The code cells as an output was made. */
  cellsBehind(output: string): readonly vscode.NotebookCell[] | undefined;
  tell(message: Told, editor: vscode.NotebookEditor): void;
}

/** A literal that was written. */
interface Written {
  readonly cell: vscode.NotebookCell;
  readonly from: number;
  readonly before: string;
  readonly after: string;
}

/** Does what charts ask: writes a literal by one edit, which is one step to undo, and runs what depends on it. */
export class Moves {
  readonly #around: Around;
  readonly #done = new WeakMap<vscode.NotebookDocument, { undo: Written[]; redo: Written[] }>();

  constructor(around: Around) {
    this.#around = around;
  }

  async receive(message: HandleAsked, editor: vscode.NotebookEditor): Promise<void> {
    try {
      if (message.type === 'move') await this.#move(message, editor);
      else if (message.type === 'preview') await this.#preview(message, editor);
      else await this.#again(message, editor);
    } catch (error) {
      const text = reasonOfException(error);
      this.#around.tell({ type: 'refused', output: message.output, message: text }, editor);
    }
  }

  async #move({ output, literal, text }: Extract<HandleAsked, { type: 'move' }>, editor: vscode.NotebookEditor) {
    const { notebook } = editor;
    const cells = codeCells(notebook, languageId);
    const { edit, refusal } = await this.#around.engine.move(
      ...this.#order({ output, literal, text }, notebook, cells),
    );
    if (edit === undefined) return this.#around.tell({ type: 'refused', output, message: refusal ?? '' }, editor);
    const cell = cells[edit.cell];
    const before = cell.document.getText().slice(edit.from, edit.to);
    await write(cell, edit);
    const { undo, redo } = this.#history(notebook);
    undo.push({ cell, from: edit.from, before, after: edit.text });
    redo.length = 0;
    await this.#around.update(notebook, owner(notebook, output));
  }

  /** What the outputs in view would show; the text and the outputs stay as they are. */
  async #preview(message: Extract<HandleAsked, { type: 'preview' }>, editor: vscode.NotebookEditor): Promise<void> {
    const { notebook } = editor;
    const cells = codeCells(notebook, languageId);
    const wanted = cells.flatMap(({ outputs }, index) =>
      outputs.some((one) => message.seen.includes(idIn(one) ?? '')) ? [index] : [],
    );
    const { outputs } = await this.#around.engine.move(...this.#order(message, notebook, cells, wanted));
    const shown = cells.flatMap((cell, index) => {
      const of = outputs.filter((one) => one.cell === index).sort((a, b) => a.line - b.line);
      // A statement that fails by now shows one output where it showed another, or none.
      if (of.length !== cell.outputs.length) return [];
      return of.map(({ output }, at) => ({ output: idIn(cell.outputs[at]) ?? '', data: output }));
    });
    this.#around.tell({ type: 'previewed', output: message.output, shown }, editor);
  }

  /** What the engine is asked, with the literal's cell counted among the cells as they are now. */
  #order(
    { output, literal, text }: { readonly output: string; readonly literal: Literal; readonly text: string },
    notebook: vscode.NotebookDocument,
    cells: readonly vscode.NotebookCell[],
    wanted: readonly number[] = [],
  ): Parameters<EngineThreads['move']> {
    const folders = foldersOf(notebook);
    if (folders === undefined) throw errorOf('notebook.unsaved', {});
    const ran = this.#around.cellsBehind(output);
    if (ran === undefined) throw errorOf('handle.earlier', {});
    const texts = textsOf(cells);
    return [folders, { cells: texts, literal: { ...literal, cell: cells.indexOf(ran[literal.cell]) }, text, wanted }];
  }

  /** Takes the last written literal back, or writes it again, unless the text was edited there. */
  async #again({ type, output }: Extract<HandleAsked, { type: 'undo' | 'redo' }>, editor: vscode.NotebookEditor) {
    const { notebook } = editor;
    const { undo, redo } = this.#history(notebook);
    const [from, to] = type === 'undo' ? [undo, redo] : [redo, undo];
    const last = from.pop();
    if (last === undefined) return;
    const [now, then] = type === 'undo' ? [last.after, last.before] : [last.before, last.after];
    const at = { from: last.from, to: last.from + now.length };
    if (last.cell.document.getText().slice(at.from, at.to) !== now || !notebook.getCells().includes(last.cell))
      throw errorOf('handle.edited', {});
    await write(last.cell, { ...at, text: then });
    to.push(last);
    await this.#around.update(notebook, owner(notebook, output));
  }

  #history(notebook: vscode.NotebookDocument): { undo: Written[]; redo: Written[] } {
    const known = this.#done.get(notebook) ?? { undo: [], redo: [] };
    this.#done.set(notebook, known);
    return known;
  }
}

/** One edit of one cell. */
async function write({ document }: vscode.NotebookCell, { from, to, text }: Omit<TextEdit, 'cell'>): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, new vscode.Range(document.positionAt(from), document.positionAt(to)), text);
  if (!(await vscode.workspace.applyEdit(edit))) throw errorOf('handle.edit', {});
}

/** The cell that shows an output, so that it is run first. */
const owner = (notebook: vscode.NotebookDocument, output: string): vscode.NotebookCell[] =>
  notebook.getCells().filter(({ outputs }) => outputs.some((one) => idIn(one) === output));
