import * as vscode from 'vscode';
import type { Output } from '../charts/output.ts';
import type { CellKeys } from '../engine/result.ts';
import type { CellStates } from './cellStates.ts';
import { EngineEnded } from './engineThread.ts';
import type { EngineThreads } from './engineThreads.ts';
import { sentence } from './messages.ts';
import { controllerId, languageId, notebookType } from './names.ts';
import { cellOutput } from './outputs.ts';
import { displayWanted } from './settings.ts';
import { codeCells, numbersOf, runFoldersOf, textsOf } from './notebooks.ts';

/** Content keys by cell. */
type Keys = ReadonlyMap<vscode.NotebookCell, string>;

interface RunEnd {
  /** Whether it was stopped by hand. */
  readonly stopped: boolean;
  /** Content keys after it of all cells that were run; undefined if the engine gave no answer. */
  readonly keys: Keys | undefined;
}

/** Runs cells: those asked for, one after the other, then those that show what has changed by it. */
export class Controller {
  readonly #controller: vscode.NotebookController;
  readonly #engine: EngineThreads;
  readonly #states: CellStates;
  readonly #log: vscode.LogOutputChannel;
  /** How many cells of each notebook have been run since the engine's start. */
  #orders = new WeakMap<vscode.NotebookDocument, number>();
  /** How often the engine was restarted: what was waiting then is not run any more. */
  #restarts = 0;

  constructor(engine: EngineThreads, states: CellStates, log: vscode.LogOutputChannel) {
    this.#log = log;
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

  /** Forgets all values, and what was still to be run; the next run reads every raw file anew and counts from 1. */
  async restart(): Promise<void> {
    this.#restarts += 1;
    this.#orders = new WeakMap();
    await this.#engine.dispose();
  }

  async #execute(cells: readonly vscode.NotebookCell[], notebook: vscode.NotebookDocument): Promise<void> {
    const end = await this.#runAll(cells, notebook);
    let { keys } = end;
    if (
      !end.stopped &&
      vscode.workspace.getConfiguration('washboard', notebook.uri).get<boolean>('updateDependents', true)
    ) {
      keys ??= await this.#keys(notebook);
      const dependents = this.#staleCells(notebook, keys).filter((cell) => !cells.includes(cell));
      if (dependents.length > 0) ({ keys } = await this.#runAll(dependents, notebook));
    }
    await this.markStale(notebook, keys);
  }

  /** Runs, whatever the settings say, the cells that an edit made out of date; of these some go first. */
  async update(notebook: vscode.NotebookDocument, first: readonly vscode.NotebookCell[]): Promise<void> {
    const stale = this.#staleCells(notebook, await this.#keys(notebook));
    const order = [...stale.filter((cell) => first.includes(cell)), ...stale.filter((cell) => !first.includes(cell))];
    const { keys } = await this.#runAll(order, notebook);
    await this.markStale(notebook, keys);
  }

  async #runAll(cells: readonly vscode.NotebookCell[], notebook: vscode.NotebookDocument): Promise<RunEnd> {
    const executions = cells.flatMap((cell) => this.#execution(cell) ?? []);
    const restarts = this.#restarts;
    let end: RunEnd = { stopped: false, keys: undefined };
    for (const execution of executions) {
      if (end.stopped || restarts !== this.#restarts || execution.token.isCancellationRequested) {
        execution.end(undefined);
        end = { ...end, stopped: true };
        continue;
      }
      end = await this.#run(execution, notebook);
    }
    return end;
  }

  /** Undefined for a cell that is being run already, as when a dependent's turn comes while it is run by hand. */
  #execution(cell: vscode.NotebookCell): vscode.NotebookCellExecution | undefined {
    try {
      return this.#controller.createNotebookCellExecution(cell);
    } catch {
      return undefined;
    }
  }

  async #run(execution: vscode.NotebookCellExecution, notebook: vscode.NotebookDocument): Promise<RunEnd> {
    const { cell } = execution;
    const order = (this.#orders.get(notebook) ?? 0) + 1;
    this.#orders.set(notebook, order);
    execution.executionOrder = order;
    execution.start(Date.now());
    const shown: { output: Output; line: number }[] = [];
    let success: boolean | undefined = false;
    let end: RunEnd = { stopped: false, keys: undefined };
    try {
      const all = codeCells(notebook, languageId);
      const index = all.indexOf(cell);
      const run = await this.#engine.run(
        {
          notebook: runFoldersOf(notebook),
          cells: textsOf(all),
          numbers: numbersOf(all),
          display: displayWanted(notebook),
          cell: index,
          keyed: [...new Set([...this.#runBefore(all), index])],
        },
        {
          output: (output, line) => shown.push({ output, line }),
          progress: (fraction, what) =>
            this.#states.set(cell, { ...this.#states.get(cell), progress: `${what}, ${Math.round(fraction * 100)} %` }),
        },
        (stop) => execution.token.onCancellationRequested(stop),
      );
      end = { stopped: run.cancelled, keys: byCell(run.keys, all) };
      success = end.stopped ? undefined : run.ok;
      // A run that was stopped leaves what the cell showed before.
      if (!end.stopped)
        await execution.replaceOutput(
          shown.sort((a, b) => a.line - b.line).map(({ output }) => cellOutput(output, all)),
        );
      const key = run.keys.get(index);
      if (!end.stopped) this.#states.set(cell, key === undefined ? {} : { key });
    } catch (error) {
      if (error instanceof EngineEnded) {
        success = undefined;
        end = { stopped: true, keys: undefined };
      } else {
        this.#log.error(error instanceof Error ? error : String(error));
        await execution.replaceOutput(
          new vscode.NotebookCellOutput([vscode.NotebookCellOutputItem.error(withoutStack(error))]),
        );
        void this.#offerLog();
      }
    } finally {
      const { progress: _, ...rest } = this.#states.get(cell);
      this.#states.set(cell, rest);
      execution.end(success, Date.now());
    }
    return end;
  }

  /** Of a fault of ours more is known than its sentence. */
  async #offerLog(): Promise<void> {
    const show = vscode.l10n.t('Show Log');
    if ((await vscode.window.showErrorMessage(sentence('engine.fault', {}), show)) === show) this.#log.show(true);
  }

  /** Indices of the cells that were run. */
  #runBefore(cells: readonly vscode.NotebookCell[]): number[] {
    return cells.flatMap((cell, index) => (this.#states.get(cell).key === undefined ? [] : [index]));
  }

  /** The content keys, as of now, of the cells that were run. */
  async #keys(notebook: vscode.NotebookDocument): Promise<Keys> {
    const cells = codeCells(notebook, languageId);
    const keyed = this.#runBefore(cells);
    if (keyed.length === 0) return new Map();
    return byCell(await this.#engine.keys(runFoldersOf(notebook), textsOf(cells), keyed), cells);
  }

  /** Cells that were run and would show something else by now. */
  #staleCells(notebook: vscode.NotebookDocument, keys: Keys): vscode.NotebookCell[] {
    return codeCells(notebook, languageId).filter((cell) => {
      const now = keys.get(cell);
      const { key } = this.#states.get(cell);
      return key !== undefined && now !== undefined && key !== now;
    });
  }

  /**
   * Marks the cells whose output no longer follows from the notebook and its raw files.
   * @param keys content keys as of now, where they are known
   */
  async markStale(notebook: vscode.NotebookDocument, keys?: Keys): Promise<void> {
    const now = keys ?? (await this.#keys(notebook).catch((): Keys => new Map()));
    const stale = this.#staleCells(notebook, now);
    for (const cell of codeCells(notebook, languageId)) {
      const state = this.#states.get(cell);
      if (state.key !== undefined) this.#states.set(cell, { ...state, stale: stale.includes(cell) });
    }
  }

  dispose(): void {
    this.#controller.dispose();
  }
}

/** Keys by the cell itself, which keeps its own when cells are moved. */
const byCell = (keys: CellKeys, cells: readonly vscode.NotebookCell[]): Keys =>
  new Map([...keys].map(([index, key]) => [cells[index], key]));

/** An error as its sentence alone: the editor would show where in the program it came from. */
function withoutStack(error: unknown): Error {
  const shown = new Error(error instanceof Error ? error.message : String(error));
  shown.stack = '';
  return shown;
}
