import * as vscode from 'vscode';
import type { CellFailure } from '../../engine/recall.ts';
import type { NotebookFacts, ProjectFolders } from '../../engine/service.ts';
import type { CheckedNotebook } from '../../language/check.ts';
import type { ChannelFacts } from '../../language/services/outside.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { foldersOf } from '../notebooks.ts';
import type { Analysis } from './analyses.ts';
import { standsUnchanged } from './unchanged.ts';

type NameFacts = NotebookFacts['names'][string];

/** What the engine told of a program, and of which text. */
interface Answer {
  readonly notebook: CheckedNotebook;
  readonly facts: NotebookFacts;
}

/** For how many ms an answer is waited for where somebody is typing: a long run may hold the engine for minutes. */
const patience = 1500;
/** After how many ms to ask again when the engine gave up for something else. */
const later = 1000;

/** What the engine knows of each program's names and of its files, asked for in the background. */
export class EngineFacts {
  readonly #engine: EngineThreads;
  readonly #answers = new Map<string, Answer>();
  readonly #asking = new Set<string>();
  readonly #next = new Map<string, Analysis>();
  readonly #later = new Map<string, ReturnType<typeof setTimeout>>();
  readonly #channels = new Map<string, { readonly stamp: string; readonly found: Promise<readonly ChannelFacts[]> }>();
  readonly #changed = new vscode.EventEmitter<vscode.Uri>();
  /** The program of which more is known now. */
  readonly onDidChange = this.#changed.event;

  constructor(engine: EngineThreads) {
    this.#engine = engine;
  }

  /** Asks anew, one question at a time: of what was edited meanwhile, only the latest. */
  async refresh(analysis: Analysis): Promise<void> {
    const key = analysis.uri.toString();
    const folders = foldersOf(analysis);
    if (folders === undefined) return;
    clearTimeout(this.#later.get(key));
    if (this.#asking.has(key)) {
      this.#next.set(key, analysis);
      return;
    }
    this.#asking.add(key);
    const { notebook } = analysis;
    const facts = await this.#engine
      .facts(
        folders,
        notebook.cells.map(({ text }) => text),
      )
      .catch(() => undefined);
    this.#asking.delete(key);
    if (facts !== undefined) {
      this.#answers.set(key, { notebook, facts: completed(facts, notebook, this.#answers.get(key)) });
      this.#changed.fire(analysis.uri);
    }
    const next = this.#next.get(key);
    this.#next.delete(key);
    if (next !== undefined) void this.refresh(next);
    else if (facts?.complete === false) this.#again(key, analysis);
  }

  #again(key: string, analysis: Analysis): void {
    clearTimeout(this.#later.get(key));
    this.#later.set(
      key,
      setTimeout(() => void this.refresh(analysis), later),
    );
  }

  /** Of a name's value; undefined once its statement, or one that it uses, reads otherwise. */
  name({ uri, notebook }: Analysis, name: string): NameFacts | undefined {
    const answer = this.#answers.get(uri.toString());
    const facts = answer?.facts.names[name];
    return answer !== undefined && facts !== undefined && standsUnchanged(name, answer.notebook, notebook)
      ? facts
      : undefined;
  }

  /** Of statements in a cell that are certain to fail when they are run; none once the cell reads otherwise. */
  failures({ uri, notebook }: Analysis, cell: number): readonly CellFailure[] {
    const answer = this.#answers.get(uri.toString());
    if (answer?.notebook.cells[cell]?.text !== notebook.cells[cell].text) return [];
    return answer.facts.failures.filter((failure) => failure.cell === cell);
  }

  /** Channels of one file, as it stands on the disk; empty while that is not known. */
  async channels(folders: ProjectFolders, file: vscode.Uri, path: string): Promise<readonly ChannelFacts[]> {
    const { mtime, size } = await vscode.workspace.fs.stat(file);
    const stamp = `${size} ${mtime}`;
    const key = file.toString();
    const known = this.#channels.get(key);
    const found = known?.stamp === stamp ? known.found : this.#look(folders, key, path);
    this.#channels.set(key, { stamp, found });
    return within(patience, found, []);
  }

  async #look(folders: ProjectFolders, key: string, path: string): Promise<readonly ChannelFacts[]> {
    const facts = await this.#engine.facts(folders, [], [path]).catch(() => undefined);
    const channels = facts?.files[path];
    // Given up for something else: the next one to ask has better luck.
    if (channels === undefined) this.#channels.delete(key);
    return channels ?? [];
  }

  forget(uri: vscode.Uri): void {
    const key = uri.toString();
    this.#answers.delete(key);
    this.#next.delete(key);
    clearTimeout(this.#later.get(key));
    this.#later.delete(key);
  }

  dispose(): void {
    this.#later.forEach((timer) => clearTimeout(timer));
    this.#changed.dispose();
  }
}

/** An answer that was given up half-way, with what was told before and still holds. */
function completed(facts: NotebookFacts, notebook: CheckedNotebook, before: Answer | undefined): NotebookFacts {
  if (facts.complete || before === undefined) return facts;
  const names = Object.entries(before.facts.names).filter(([name]) => standsUnchanged(name, before.notebook, notebook));
  const sameCell = (cell: number): boolean => before.notebook.cells[cell]?.text === notebook.cells[cell]?.text;
  const failedNow = new Set(facts.failures.map(({ cell, place }) => `${cell} ${place.from}`));
  const failures = before.facts.failures.filter(
    ({ cell, place }) => sameCell(cell) && !failedNow.has(`${cell} ${place.from}`),
  );
  return {
    ...facts,
    names: { ...Object.fromEntries(names), ...facts.names },
    failures: [...facts.failures, ...failures],
  };
}

function within<T>(milliseconds: number, found: Promise<T>, otherwise: T): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(resolve, milliseconds, otherwise);
    found.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
