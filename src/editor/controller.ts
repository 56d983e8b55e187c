import * as vscode from 'vscode';
import type { Output } from '../charts/output.ts';
import type { CellStates } from './cellStates.ts';
import type { EngineThread } from './engineThread.ts';
import { controllerId, languageId, notebookType } from './names.ts';
import { cellOutput } from './outputs.ts';
import { codeCells, placeOf } from './place.ts';

/** Runs cells: those asked for, one after the other, then those that show what has changed by it. */
export class Controller {
  readonly #controller: vscode.NotebookController;
  readonly #engine: EngineThread;
  readonly #states: CellStates;
  #order = 0;

  constructor(engine: EngineThread, states: CellStates) {
    this.#engine = engine;
    this.#states = states;
    this.#controller = vscode.notebooks.createNotebookController(controllerId, notebookType, 'Washboard');
    this.#controller.supportedLanguages = [languageId];
    this.#controller.supportsExecutionOrder = true;
    this.#controller.description = 'Vibration analysis';
    this.#controller.executeHandler = (cells, notebook) => this.#execute(cells, notebook);
  }

  prefer(notebook: vscode.NotebookDocument): void {
    this.#controller.updateNotebookAffinity(notebook, vscode.NotebookControllerAffinity.Preferred);
  }

  /** Forgets all values; the next run reads every raw file anew and counts from 1. */
  async restart(): Promise<void> {
    await this.#engine.dispose();
    this.#order = 0;
  }

  async #execute(cells: readonly vscode.NotebookCell[], notebook: vscode.NotebookDocument): Promise<void> {
    const stopped = await this.#runAll(cells, notebook);
    if (!stopped) await this.#runDependents(cells, notebook);
    await this.markStale(notebook);
  }

  async #runAll(cells: readonly vscode.NotebookCell[], notebook: vscode.NotebookDocument): Promise<boolean> {
    const executions = cells.flatMap((cell) => this.#execution(cell) ?? []);
    let stopped = false;
    for (const execution of executions) {
      if (stopped || execution.token.isCancellationRequested) {
        execution.end(undefined);
        stopped = true;
        continue;
      }
      stopped = await this.#run(execution, notebook);
    }
    return stopped;
  }

  /** Undefined for a cell that is being run already, as when a dependent's turn comes while it is run by hand. */
  #execution(cell: vscode.NotebookCell): vscode.NotebookCellExecution | undefined {
    try {
      return this.#controller.createNotebookCellExecution(cell);
    } catch {
      return undefined;
    }
  }

  /** Runs one cell; tells whether it was stopped by hand. */
  async #run(execution: vscode.NotebookCellExecution, notebook: vscode.NotebookDocument): Promise<boolean> {
    const { cell } = execution;
    execution.executionOrder = ++this.#order;
    execution.start(Date.now());
    const shown: { output: Output; line: number }[] = [];
    let success: boolean | undefined = false;
    let stopped = false;
    try {
      const place = placeOf(notebook);
      if (place === undefined)
        throw new Error('Save the notebook first: the paths of raw files are relative to its folder.');
      const all = codeCells(notebook, languageId);
      const texts = all.map(({ document }) => document.getText());
      const run = await this.#engine.run(
        place,
        texts,
        all.indexOf(cell),
        {
          output: (output, line) => shown.push({ output, line }),
          progress: (fraction, what) =>
            this.#states.set(cell, { ...this.#states.get(cell), progress: `${what}, ${Math.round(fraction * 100)} %` }),
        },
        (stop) => execution.token.onCancellationRequested(stop),
      );
      stopped = run.cancelled;
      success = stopped ? undefined : run.ok;
      // A run that was stopped leaves what the cell showed before.
      if (!stopped)
        await execution.replaceOutput(shown.sort((a, b) => a.line - b.line).map(({ output }) => cellOutput(output)));
      this.#states.set(cell, stopped ? { ...this.#states.get(cell) } : { key: run.key });
    } catch (error) {
      await execution.replaceOutput(
        new vscode.NotebookCellOutput([
          vscode.NotebookCellOutputItem.error(error instanceof Error ? error : new Error(String(error))),
        ]),
      );
    } finally {
      const { progress: _, ...rest } = this.#states.get(cell);
      this.#states.set(cell, rest);
      execution.end(success, Date.now());
    }
    return stopped;
  }

  /** Cells that were run before and show something else by now, through what has just been run. */
  async #runDependents(ran: readonly vscode.NotebookCell[], notebook: vscode.NotebookDocument): Promise<void> {
    if (!vscode.workspace.getConfiguration('washboard', notebook.uri).get('updateDependents', true)) return;
    const stale = await this.#staleCells(notebook);
    const dependents = stale.filter((cell) => !ran.includes(cell));
    if (dependents.length > 0) await this.#runAll(dependents, notebook);
  }

  async #staleCells(notebook: vscode.NotebookDocument): Promise<vscode.NotebookCell[]> {
    const place = placeOf(notebook);
    if (place === undefined) return [];
    const cells = codeCells(notebook, languageId);
    const keys = await this.#engine.keys(
      place,
      cells.map(({ document }) => document.getText()),
    );
    return cells.filter((cell, index) => {
      const { key } = this.#states.get(cell);
      return key !== undefined && key !== keys[index];
    });
  }

  /** Marks the cells whose output no longer follows from the notebook and its raw files. */
  async markStale(notebook: vscode.NotebookDocument): Promise<void> {
    const stale = await this.#staleCells(notebook).catch((): vscode.NotebookCell[] => []);
    for (const cell of codeCells(notebook, languageId)) {
      const state = this.#states.get(cell);
      if (state.key !== undefined) this.#states.set(cell, { ...state, stale: stale.includes(cell) });
    }
  }

  dispose(): void {
    this.#controller.dispose();
  }
}
