import * as vscode from 'vscode';
import type { Diagnostic } from '../../language/diagnostic.ts';
import { pageOf } from '../reference.ts';
import { recordings } from '../staleness.ts';
import { rangeOf, type Analyses, type Analysis } from './analyses.ts';
import type { EngineFacts } from './engineFacts.ts';
import { relatedTo } from './related.ts';
import { outsideOf } from './outside.ts';
import { openPrograms, programOf, programOfNotebook, isOurs, type Program } from './program.ts';
import { language } from './service.ts';

/** Pause in typing after which a program is checked anew, in ms. */
const pause = 250;

const severities: Readonly<Record<Diagnostic['severity'], vscode.DiagnosticSeverity>> = {
  error: vscode.DiagnosticSeverity.Error,
  warning: vscode.DiagnosticSeverity.Warning,
  hint: vscode.DiagnosticSeverity.Hint,
};

/** What is wrong with each cell, as one types; what its files and earlier runs tell comes a moment later. */
export class Diagnostics {
  readonly #analyses: Analyses;
  readonly #engineFacts: EngineFacts;
  readonly #collection = vscode.languages.createDiagnosticCollection('washboard');
  readonly #waiting = new Map<string, ReturnType<typeof setTimeout>>();
  /** Documents of each program that were given diagnostics. */
  readonly #shown = new Map<string, readonly vscode.Uri[]>();
  /** What the world around showed of a cell's text, by document. */
  readonly #outside = new Map<string, { readonly text: string; readonly problems: readonly Diagnostic[] }>();
  readonly #listening: vscode.Disposable;

  constructor(analyses: Analyses, engineFacts: EngineFacts) {
    this.#analyses = analyses;
    this.#engineFacts = engineFacts;
    this.#listening = this.#listen();
    openPrograms().forEach((program) => this.#soon(program));
  }

  /** The problems of a document as they are shown now. */
  problemsOf(analysis: Analysis, cell: number): readonly Diagnostic[] {
    const own = language.diagnose(analysis.notebook)[cell];
    const known = this.#outside.get(analysis.documents[cell].uri.toString());
    const around = known?.text === analysis.notebook.cells[cell].text ? known.problems : [];
    const free = ({ place }: Diagnostic): boolean => !own.some((problem) => touches(problem.place, place));
    return [...own, ...around.filter(free)];
  }

  #listen(): vscode.Disposable {
    const files = vscode.workspace.createFileSystemWatcher(recordings);
    const all = (): void => openPrograms().forEach((program) => this.#soon(program));
    return vscode.Disposable.from(
      files,
      files.onDidCreate(all),
      files.onDidDelete(all),
      files.onDidChange(all),
      vscode.workspace.onDidOpenTextDocument((document) => this.#soonOf(document)),
      vscode.workspace.onDidChangeTextDocument(({ document }) => this.#soonOf(document)),
      vscode.workspace.onDidCloseTextDocument(({ uri }) => {
        this.#collection.delete(uri);
        this.#outside.delete(uri.toString());
        if (uri.scheme !== 'vscode-notebook-cell') this.#forget(uri);
      }),
      vscode.workspace.onDidOpenNotebookDocument((notebook) => {
        if (isOurs(notebook)) this.#soon(programOfNotebook(notebook));
      }),
      vscode.workspace.onDidChangeNotebookDocument(({ notebook, contentChanges, cellChanges }) => {
        const ran = cellChanges.some(({ executionSummary }) => executionSummary?.success !== undefined);
        if (isOurs(notebook) && (contentChanges.length > 0 || ran)) this.#soon(programOfNotebook(notebook));
      }),
      vscode.workspace.onDidCloseNotebookDocument(({ uri }) => this.#forget(uri)),
      this.#engineFacts.onDidChange((uri) => {
        const program = openPrograms().find((one) => one.uri.toString() === uri.toString());
        if (program !== undefined) void this.#lookOutside(this.#analyses.of(program));
      }),
    );
  }

  #soonOf(document: vscode.TextDocument): void {
    const program = programOf(document);
    if (program !== undefined) this.#soon(program);
  }

  #soon({ uri }: Program): void {
    const key = uri.toString();
    clearTimeout(this.#waiting.get(key));
    this.#waiting.set(
      key,
      setTimeout(() => {
        this.#waiting.delete(key);
        // Cells may have come and gone while it waited.
        const program = openPrograms().find((one) => one.uri.toString() === key);
        if (program !== undefined) this.#refresh(this.#analyses.of(program));
      }, pause),
    );
  }

  #refresh(analysis: Analysis): void {
    this.#show(analysis);
    void this.#lookOutside(analysis);
    void this.#engineFacts.refresh(analysis);
  }

  async #lookOutside(analysis: Analysis): Promise<void> {
    const { notebook, documents } = analysis;
    const outside = outsideOf(analysis, this.#engineFacts, 'warnings');
    const found = await Promise.all(documents.map((_, cell) => language.diagnoseOutside(notebook, cell, outside)));
    found.forEach((problems, cell) => {
      const failures = this.#engineFacts
        .failures(analysis, cell)
        .map(({ cell: _cell, at: _at, ...failure }): Diagnostic => ({ ...failure, severity: 'error' }));
      // Where the language has its own words for it, with a page and a fix, those are taken.
      const others = failures.filter(({ place }) => !problems.some((problem) => touches(problem.place, place)));
      const { text } = notebook.cells[cell];
      this.#outside.set(documents[cell].uri.toString(), { text, problems: [...problems, ...others] });
    });
    // What was edited meanwhile is looked at again by its own turn.
    const now = openPrograms().find(({ uri }) => uri.toString() === analysis.uri.toString());
    if (now !== undefined) this.#show(this.#analyses.of(now));
  }

  #show(analysis: Analysis): void {
    const key = analysis.uri.toString();
    const uris = analysis.documents.map(({ uri }) => uri);
    const kept = new Set(uris.map(String));
    for (const uri of this.#shown.get(key) ?? []) if (!kept.has(uri.toString())) this.#collection.delete(uri);
    this.#shown.set(key, uris);
    analysis.documents.forEach((document, cell) =>
      this.#collection.set(
        document.uri,
        this.problemsOf(analysis, cell).map((problem) => {
          const diagnostic = diagnosticOf(document, problem);
          diagnostic.relatedInformation = relatedTo(analysis, problem);
          return diagnostic;
        }),
      ),
    );
  }

  #forget(uri: vscode.Uri): void {
    const key = uri.toString();
    clearTimeout(this.#waiting.get(key));
    this.#waiting.delete(key);
    this.#shown.get(key)?.forEach((shown) => {
      this.#collection.delete(shown);
      this.#outside.delete(shown.toString());
    });
    this.#shown.delete(key);
    this.#analyses.forget(uri);
    this.#engineFacts.forget(uri);
  }

  dispose(): void {
    this.#listening.dispose();
    this.#waiting.forEach((timer) => clearTimeout(timer));
    this.#collection.dispose();
  }
}

const touches = (a: Diagnostic['place'], b: Diagnostic['place']): boolean => a.from <= b.to && b.from <= a.to;

/** The code links to its page in the reference, where it has one. */
function diagnosticOf(document: vscode.TextDocument, problem: Diagnostic): vscode.Diagnostic {
  const { code, severity, place, message } = problem;
  const diagnostic = new vscode.Diagnostic(rangeOf(document, place), message, severities[severity]);
  const target = pageOf(code);
  diagnostic.code = target === undefined ? code : { value: code, target };
  diagnostic.source = 'washboard';
  if (code === 'name.unused') diagnostic.tags = [vscode.DiagnosticTag.Unnecessary];
  return diagnostic;
}
