import * as vscode from 'vscode';
import type { NumberOffer } from '../../engine/numberOffers.ts';
import type { NumberCheck } from '../../engine/proseNumbers.ts';
import { proseNumbers, type ProseNumber } from '../../notebook/proseNumbers.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { languageId, notebookType } from '../names.ts';
import { codeCells, foldersOf, textsOf } from '../notebooks.ts';

/** A number in a cell of prose, and what became of it. */
export interface KnownNumber {
  readonly document: vscode.TextDocument;
  readonly number: ProseNumber;
  readonly check: NumberCheck;
}

interface Known {
  readonly numbers: readonly (KnownNumber & { readonly text: string })[];
  readonly offers: readonly NumberOffer[];
}

/** Pause after a change before the numbers are held against the results anew, in ms. */
const pause = 300;
/** After how many ms to ask again when the engine gave up for something else. */
const later = 1000;

/** The numbers in the prose of all open notebooks, held against what is known of the results. */
export class ProseNumbers {
  readonly #engine: EngineThreads;
  readonly #known = new Map<vscode.NotebookDocument, Known>();
  readonly #waiting = new Map<vscode.NotebookDocument, ReturnType<typeof setTimeout>>();
  readonly #changed = new vscode.EventEmitter<vscode.NotebookDocument>();
  readonly onDidChange = this.#changed.event;
  readonly #listening: vscode.Disposable;

  constructor(engine: EngineThreads) {
    this.#engine = engine;
    this.#listening = vscode.Disposable.from(
      vscode.workspace.onDidOpenNotebookDocument((notebook) => this.#soon(notebook)),
      vscode.workspace.onDidChangeNotebookDocument(({ notebook }) => this.#soon(notebook)),
      vscode.workspace.onDidCloseNotebookDocument((notebook) => {
        clearTimeout(this.#waiting.get(notebook));
        this.#waiting.delete(notebook);
        this.#known.delete(notebook);
        this.#changed.fire(notebook);
      }),
    );
    vscode.workspace.notebookDocuments.forEach((notebook) => this.#soon(notebook));
  }

  /** The numbers of a notebook that stand as they did when they were looked at. */
  of(notebook: vscode.NotebookDocument): readonly KnownNumber[] {
    return (this.#known.get(notebook)?.numbers ?? []).filter(({ document, text }) => document.getText() === text);
  }

  /** The numbers that could stand in the notebook's prose. */
  offers(notebook: vscode.NotebookDocument): readonly NumberOffer[] {
    return this.#known.get(notebook)?.offers ?? [];
  }

  /** Looks at the numbers now, as the texts stand. */
  async refresh(notebook: vscode.NotebookDocument): Promise<void> {
    const folders = foldersOf(notebook);
    if (folders === undefined) return;
    const found = notebook
      .getCells()
      .filter(({ kind }) => kind === vscode.NotebookCellKind.Markup)
      .flatMap(({ document }) => {
        const text = document.getText();
        return proseNumbers(text).map((number) => ({ document, text, number }));
      });
    const cells = textsOf(codeCells(notebook, languageId));
    const asked = found.map(({ number: { text, unit, expression } }) => ({ text, unit, expression }));
    const answer = await this.#engine.numbers(folders, cells, asked).catch(() => undefined);
    if (answer === undefined || notebook.isClosed) return;
    const numbers = found.map((one, at) => ({ ...one, check: answer.numbers[at] }));
    this.#known.set(notebook, { numbers, offers: answer.offers });
    this.#changed.fire(notebook);
    if (!answer.complete) this.#soon(notebook, later);
  }

  #soon(notebook: vscode.NotebookDocument, after = pause): void {
    if (notebook.notebookType !== notebookType) return;
    clearTimeout(this.#waiting.get(notebook));
    this.#waiting.set(
      notebook,
      setTimeout(() => {
        this.#waiting.delete(notebook);
        void this.refresh(notebook);
      }, after),
    );
  }

  dispose(): void {
    this.#listening.dispose();
    this.#waiting.forEach((timer) => clearTimeout(timer));
    this.#changed.dispose();
  }
}

export const rangeOf = (document: vscode.TextDocument, { from, to }: { from: number; to: number }): vscode.Range =>
  new vscode.Range(document.positionAt(from), document.positionAt(to));

/** The notebook that a cell's document belongs to. */
export const notebookOf = (document: vscode.TextDocument): vscode.NotebookDocument | undefined =>
  vscode.workspace.notebookDocuments.find(
    (one) => one.notebookType === notebookType && one.getCells().some((cell) => cell.document === document),
  );
