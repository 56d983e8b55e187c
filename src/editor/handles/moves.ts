import * as vscode from 'vscode';
import type { TextEdit } from '../../charts/handle.ts';
import type { HandleAsked, Told } from '../../charts/handleMessages.ts';
import type { MoveOrder } from '../../engine/moving.ts';
import type { ProjectFolders } from '../../engine/service.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { errorOf } from '../messages.ts';
import { languageId } from '../names.ts';
import { codeCells, foldersOf, textsOf } from '../notebooks.ts';
import { History } from './history.ts';
import { cellOf, dataIn, idIn } from './shownBy.ts';
import type { Part } from './written.ts';
import { reasonOfException } from '../../result/environment.ts';

type Asked<Type extends HandleAsked['type']> = Extract<HandleAsked, { readonly type: Type }>;
type Shown = Extract<Told, { readonly shown: unknown }>['shown'][number];

/** What moving a literal needs of the editor's other parts. */
export interface Around {
  readonly engine: EngineThreads;
  /** Runs what an edit made out of date, some cells first. */
  update(notebook: vscode.NotebookDocument, first: readonly vscode.NotebookCell[]): Promise<void>;
  /** The code cells as an output was made. */
  cellsBehind(output: string): readonly vscode.NotebookCell[] | undefined;
  /** The texts of those cells as they were run. */
  textsBehind(ran: readonly vscode.NotebookCell[]): readonly string[];
  tell(message: Told, editor: vscode.NotebookEditor): void;
}

/** Does what charts ask: writes text by one edit, which is one step to undo, and runs what depends on it; or shows them otherwise. */
export class Moves {
  readonly #around: Around;
  readonly #histories = new WeakMap<vscode.NotebookDocument, History>();

  constructor(around: Around) {
    this.#around = around;
  }

  async receive(message: HandleAsked, editor: vscode.NotebookEditor): Promise<void> {
    // A slider that loses the focus writes, also with its page.
    if (isClosed(editor)) return;
    try {
      await this.#do(message, editor);
    } catch (error) {
      if (isClosed(editor)) return;
      const reason = reasonOfException(error);
      if (message.type === 'move') this.#refuseMove(message.output, reason, editor);
      else this.#refuse(message.output, reason, editor);
    }
  }

  #do(message: HandleAsked, editor: vscode.NotebookEditor): Promise<void> {
    switch (message.type) {
      case 'move':
        return this.#move(message, editor);
      case 'preview':
        return this.#preview(message, editor);
      case 'make':
        return this.#make(message, editor);
      case 'closer':
        return this.#closer(message, editor);
      case 'undo':
      case 'redo':
        return this.#again(message, editor);
    }
  }

  #refuse(output: string, message: string, editor: vscode.NotebookEditor): void {
    this.#around.tell({ type: 'refused', output, message }, editor);
  }

  /** What followed the handle meanwhile shows again what its cells do. */
  #refuseMove(output: string, message: string, editor: vscode.NotebookEditor): void {
    const shown = codeCells(editor.notebook, languageId).flatMap(({ outputs }) =>
      outputs.flatMap((one): Shown[] => {
        const [id, data] = [idIn(one), dataIn(one)];
        return id === undefined || data === undefined ? [] : [{ output: id, data }];
      }),
    );
    this.#around.tell({ type: 'previewed', output, shown }, editor);
    this.#refuse(output, message, editor);
  }

  async #move(message: Asked<'move'>, editor: vscode.NotebookEditor): Promise<void> {
    const { output } = message;
    const { notebook } = editor;
    const cells = codeCells(notebook, languageId);
    const texts = textsOf(cells);
    const { edit, refusal } = await this.#around.engine.move(...this.#order(message, notebook, cells));
    // An edit would open it again, unsaved and unseen.
    if (notebook.isClosed) return;
    if (edit === undefined) return this.#refuseMove(output, refusal ?? '', editor);
    // Whoever types meanwhile moves the places that were told.
    if (!isAsSent(edit, cells, texts)) return this.#move(message, editor);
    await this.#history(notebook).write([partOf(edit, cells)]);
    await this.#around.update(notebook, owner(notebook, output));
  }

  /** Writes what is made of a stretch; what stands in a new cell is run. */
  async #make(message: Asked<'make'>, editor: vscode.NotebookEditor): Promise<void> {
    const { output, statement, choice } = message;
    const { notebook } = editor;
    const cells = codeCells(notebook, languageId);
    const at = { ...statement, cell: cells.indexOf(this.#ran(output)[statement.cell]) };
    const texts = textsOf(cells);
    const order = { cells: texts, statement: at, choice };
    const { edits, below, refusal } = await this.#around.engine.make(foldersIn(notebook), order);
    if (notebook.isClosed) return;
    if (refusal !== undefined) return this.#refuse(output, refusal, editor);
    if (!edits.every((edit) => isAsSent(edit, cells, texts))) return this.#make(message, editor);
    const history = this.#history(notebook);
    if (below !== undefined) {
      const { index } = await history.writeBelow(cells[below.cell], below.text);
      const ranges = [{ start: index, end: index + 1 }];
      await vscode.commands.executeCommand('notebook.cell.execute', { ranges, document: notebook.uri });
      return;
    }
    await history.write(edits.map((edit) => partOf(edit, cells)));
    await this.#around.update(notebook, owner(notebook, output));
  }

  /** What outputs show of stretches of their axes, as they were run. */
  async #closer({ output, wanted }: Asked<'closer'>, editor: vscode.NotebookEditor): Promise<void> {
    const folders = foldersIn(editor.notebook);
    const shown: Shown[] = [];
    for (const ran of new Set(wanted.map((one) => this.#ran(one.output)))) {
      const own = wanted.filter((one) => this.#ran(one.output) === ran);
      const closer = own.map(({ statement: { cell, line }, over }) => ({ cell, line, ...(over && { over }) }));
      const outputs = await this.#around.engine.closer(folders, this.#around.textsBehind(ran), closer);
      for (const { cell, line, output: data } of outputs) {
        const found = own.find(({ statement }) => statement.cell === cell && statement.line === line);
        if (found !== undefined) shown.push({ output: found.output, data });
      }
    }
    this.#around.tell({ type: 'closer', output, shown }, editor);
  }

  /** What the outputs in view would show; the text and the outputs stay as they are. */
  async #preview(message: Asked<'preview'>, editor: vscode.NotebookEditor): Promise<void> {
    const { notebook } = editor;
    const cells = codeCells(notebook, languageId);
    const wanted = cells.flatMap(({ outputs }, index) =>
      outputs.some((one) => message.seen.includes(idIn(one) ?? '')) ? [index] : [],
    );
    const closer = message.closer.flatMap(({ output, statement: { cell, line }, over }) => {
      const index = cells.indexOf(this.#ran(output)[cell]);
      return over === undefined ? [] : [{ cell: index, line, over }];
    });
    const { outputs } = await this.#around.engine.move(...this.#order(message, notebook, cells, { wanted, closer }));
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
    { output, literal, text }: Pick<Asked<'move'>, 'output' | 'literal' | 'text'>,
    notebook: vscode.NotebookDocument,
    cells: readonly vscode.NotebookCell[],
    shown: Pick<MoveOrder, 'wanted' | 'closer'> = { wanted: [] },
  ): Parameters<EngineThreads['move']> {
    const moved = { ...literal, cell: cells.indexOf(this.#ran(output)[literal.cell]) };
    return [foldersIn(notebook), { cells: textsOf(cells), literal: moved, text, ...shown }];
  }

  /** The code cells as an output was made. */
  #ran(output: string): readonly vscode.NotebookCell[] {
    const ran = this.#around.cellsBehind(output);
    if (ran === undefined) throw errorOf('handle.earlier', {});
    return ran;
  }

  /** Takes back what a chart wrote last, or writes it again. */
  async #again({ type, output }: Asked<'undo' | 'redo'>, editor: vscode.NotebookEditor): Promise<void> {
    const { notebook } = editor;
    if (await this.#history(notebook).again(type)) await this.#around.update(notebook, owner(notebook, output));
  }

  #history(notebook: vscode.NotebookDocument): History {
    const known = this.#histories.get(notebook) ?? new History(notebook);
    this.#histories.set(notebook, known);
    return known;
  }
}

const isClosed = ({ notebook }: vscode.NotebookEditor): boolean => notebook.isClosed;

/** Whether the cell of an edit still has the text that the edit was made for. */
const isAsSent = ({ cell }: TextEdit, cells: readonly vscode.NotebookCell[], texts: readonly string[]): boolean =>
  cells[cell].document.getText() === texts[cell];

const partOf = ({ cell, from, to, text }: TextEdit, cells: readonly vscode.NotebookCell[]): Part => ({
  cell: cells[cell],
  from,
  before: cells[cell].document.getText().slice(from, to),
  after: text,
});

function foldersIn(notebook: vscode.NotebookDocument): ProjectFolders {
  const folders = foldersOf(notebook);
  if (folders === undefined) throw errorOf('notebook.unsaved', {});
  return folders;
}

/** The cell that shows an output, so that it is run first. */
const owner = (notebook: vscode.NotebookDocument, output: string): vscode.NotebookCell[] => {
  const cell = cellOf(notebook, output);
  return cell === undefined ? [] : [cell];
};
