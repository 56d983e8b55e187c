import * as vscode from 'vscode';
import type { Change } from '../engine/ingredients.ts';
import type { CellKeys } from '../engine/result.ts';
import { loggable } from '../result/environment.ts';
import type { CellStates } from './cellStates.ts';
import type { EngineThreads } from './engineThreads.ts';
import { EngineEnded } from './engineThread.ts';
import type { KeptOutputs } from './keptOutputs.ts';
import { sentence } from './messages.ts';
import { controllerId, languageId, notebookType } from './names.ts';
import { CellRun } from './cellRun.ts';
import { cellOutput } from './outputs.ts';
import { displayWanted, shownKey } from './settings.ts';
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
  readonly #kept: () => Promise<KeptOutputs>;
  readonly #selected = new vscode.EventEmitter<vscode.NotebookDocument>();
  /** The notebook that is run by this from now on. */
  readonly onDidSelect = this.#selected.event;
  readonly #log: vscode.LogOutputChannel;
  /** How many cells of each notebook have been run since the engine's start. */
  #orders = new WeakMap<vscode.NotebookDocument, number>();
  /** How often the engine was restarted: what was waiting then is not run any more. */
  #restarts = 0;

  constructor(
    engine: EngineThreads,
    states: CellStates,
    kept: () => Promise<KeptOutputs>,
    log: vscode.LogOutputChannel,
  ) {
    this.#log = log;
    this.#engine = engine;
    this.#states = states;
    this.#kept = kept;
    this.#controller = vscode.notebooks.createNotebookController(controllerId, notebookType, 'Washboard');
    this.#controller.supportedLanguages = [languageId];
    this.#controller.supportsExecutionOrder = true;
    this.#controller.description = 'Vibration analysis';
    this.#controller.executeHandler = (cells, notebook) => this.#execute(cells, notebook);
    this.#controller.onDidChangeSelectedNotebooks(({ notebook, selected }) => {
      if (selected) this.#selected.fire(notebook);
    });
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
      if (dependents.length > 0) ({ keys } = await this.#runTogether(dependents, notebook));
    }
    await this.markStale(notebook, keys);
  }

  /** Runs, whatever the settings say, the cells that an edit made out of date; of these some go first. */
  async update(notebook: vscode.NotebookDocument, first: readonly vscode.NotebookCell[]): Promise<void> {
    const stale = this.#staleCells(notebook, await this.#keys(notebook));
    const order = [...stale.filter((cell) => first.includes(cell)), ...stale.filter((cell) => !first.includes(cell))];
    const { keys } = await this.#runTogether(order, notebook);
    await this.markStale(notebook, keys);
  }

  /** Shows again, without a run, what cells showed whose text and all that they use are as they were; nothing is marked as run. */
  async restore(notebook: vscode.NotebookDocument): Promise<void> {
    const all = codeCells(notebook, languageId);
    const isEmpty = (cell: vscode.NotebookCell): boolean =>
      cell.outputs.length === 0 && this.#states.get(cell).key === undefined;
    const empty = all.flatMap((cell, index) => (isEmpty(cell) ? [index] : []));
    if (empty.length === 0) return;
    const kept = await this.#kept();
    if (!(await kept.any())) return;
    const texts = textsOf(all);
    const cells = { texts, numbers: numbersOf(all) };
    const keys = await this.#engine.keys(runFoldersOf(notebook), texts, empty).catch((): CellKeys => new Map());
    for (const [index, key] of keys) {
      const cell = all[index];
      const outputs = await kept.get(shownKey(key, notebook), index, cells);
      // It may have been edited, taken away or run meanwhile.
      const isGone = notebook.isClosed || cell.index < 0 || cell.document.getText() !== texts[index];
      if (outputs === undefined || isGone || !isEmpty(cell)) continue;
      const execution = this.#execution(cell);
      if (execution === undefined) continue;
      execution.start();
      await execution.replaceOutput(outputs.map((output) => cellOutput(output, all)));
      execution.end(undefined);
      this.#states.set(cell, { key, earlier: true });
    }
  }

  /** One after the other, as the user asked for them. */
  async #runAll(cells: readonly vscode.NotebookCell[], notebook: vscode.NotebookDocument): Promise<RunEnd> {
    const executions = cells.flatMap((cell) => this.#execution(cell) ?? []);
    const restarts = this.#restarts;
    let end: RunEnd = { stopped: false, keys: undefined };
    for (const [at, execution] of executions.entries()) {
      if (end.stopped || restarts !== this.#restarts || execution.token.isCancellationRequested) {
        execution.end(undefined);
        end = { ...end, stopped: true };
        continue;
      }
      end = await this.#run([execution], notebook, executions.slice(at + 1));
    }
    return end;
  }

  /** By one request. */
  #runTogether(cells: readonly vscode.NotebookCell[], notebook: vscode.NotebookDocument): Promise<RunEnd> {
    return this.#run(
      cells.flatMap((cell) => this.#execution(cell) ?? []),
      notebook,
    );
  }

  /** Undefined for a cell that is being run already, as when a dependent's turn comes while it is run by hand. */
  #execution(cell: vscode.NotebookCell): vscode.NotebookCellExecution | undefined {
    try {
      return this.#controller.createNotebookCellExecution(cell);
    } catch {
      return undefined;
    }
  }

  /**
   * Each cell shows what it gave as soon as that is there.
   * @param next what is to be run after these
   */
  async #run(
    executions: readonly vscode.NotebookCellExecution[],
    notebook: vscode.NotebookDocument,
    next: readonly vscode.NotebookCellExecution[] = [],
  ): Promise<RunEnd> {
    if (executions.length === 0) return { stopped: false, keys: undefined };
    const all = codeCells(notebook, languageId);
    const [texts, numbers] = [textsOf(all), numbersOf(all)];
    const display = displayWanted(notebook);
    const runs = new Map(executions.map((execution) => [all.indexOf(execution.cell), new CellRun(execution, all)]));
    for (const { execution } of runs.values()) this.#start(execution, notebook);
    const wanted = [...runs.keys()];
    let end: RunEnd = { stopped: false, keys: undefined };
    try {
      const run = await this.#engine.run(
        {
          notebook: runFoldersOf(notebook),
          cells: texts,
          numbers,
          display,
          wanted,
          soon: next.map(({ cell }) => all.indexOf(cell)).filter((index) => index >= 0),
          keyed: [...new Set([...this.#runBefore(all), ...wanted])],
        },
        {
          output: (cell, output, line) => runs.get(cell)?.add(output, line),
          settled: (cell, ok) => void runs.get(cell)?.end(ok),
          progress: (fraction, what) => this.#progress(runs, `${what}, ${Math.round(fraction * 100)} %`),
        },
        (stop) => executions.forEach(({ token }) => token.onCancellationRequested(stop)),
      );
      end = { stopped: run.cancelled, keys: byCell(run.keys, all) };
      // A run that was stopped leaves what the cell showed before.
      for (const one of runs.values()) await (end.stopped ? one.leave(undefined) : one.end(run.ok));
      for (const [index, { execution, isShown, outputs }] of runs) {
        if (!isShown) continue;
        const key = run.keys.get(index);
        this.#states.set(execution.cell, key === undefined ? {} : { key });
        if (key !== undefined)
          void this.#kept().then((kept) => kept.put(shownKey(key, notebook), outputs, index, { texts, numbers }));
      }
    } catch (error) {
      end = { stopped: error instanceof EngineEnded, keys: undefined };
      if (!end.stopped) this.#log.error(loggable(error));
      for (const one of runs.values()) await (end.stopped ? one.leave(undefined) : one.fail(error));
      if (!end.stopped) void this.#offerLog();
    } finally {
      this.#progress(runs, undefined);
    }
    return end;
  }

  #start(execution: vscode.NotebookCellExecution, notebook: vscode.NotebookDocument): void {
    const order = (this.#orders.get(notebook) ?? 0) + 1;
    this.#orders.set(notebook, order);
    execution.executionOrder = order;
    execution.start(Date.now());
  }

  /** The work in hand is told at the first cell that waits for it. */
  #progress(runs: ReadonlyMap<number, CellRun>, progress: string | undefined): void {
    const first = [...runs.values()].find(({ isOpen }) => isOpen);
    for (const run of runs.values()) {
      const { progress: _, ...rest } = this.#states.get(run.execution.cell);
      this.#states.set(run.execution.cell, run === first && progress !== undefined ? { ...rest, progress } : rest);
    }
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
    const changes = stale.length === 0 ? new Map<vscode.NotebookCell, never>() : await this.#changes(notebook, stale);
    for (const cell of codeCells(notebook, languageId)) {
      const { why: _, ...state } = this.#states.get(cell);
      if (state.key === undefined) continue;
      const isStale = stale.includes(cell);
      const why = sentence('cell.stale', { changes: changes.get(cell) ?? [] });
      this.#states.set(cell, { ...state, stale: isStale, ...(isStale && { why }) });
    }
  }

  /** What made cells out of date. */
  async #changes(
    notebook: vscode.NotebookDocument,
    stale: readonly vscode.NotebookCell[],
  ): Promise<ReadonlyMap<vscode.NotebookCell, readonly Change[]>> {
    const all = codeCells(notebook, languageId);
    const before = stale.map((cell) => [all.indexOf(cell), this.#states.get(cell).key ?? ''] as const);
    const found = await this.#engine
      .changes(runFoldersOf(notebook), textsOf(all), numbersOf(all), new Map(before))
      .catch(() => new Map<number, readonly Change[]>());
    return new Map([...found].map(([index, changes]) => [all[index], changes]));
  }

  dispose(): void {
    this.#selected.dispose();
    this.#controller.dispose();
  }
}

/** Keys by the cell itself, which keeps its own when cells are moved. */
const byCell = (keys: CellKeys, cells: readonly vscode.NotebookCell[]): Keys =>
  new Map([...keys].map(([index, key]) => [cells[index], key]));
