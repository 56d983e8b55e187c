import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { recording } from '../../engine/memoryFiles.ts';
import { fileOf } from './workspace.ts';

const fence = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\`\n`;

/** Two runs of each condition, 20 s at 200 Hz in g, in a folder of their own. */
async function writeRuns(folder: vscode.Uri): Promise<void> {
  for (const [index, name] of ['foam-1', 'foam-2', 'gel-1', 'gel-2'].entries())
    await write(vscode.Uri.joinPath(folder, 'raw', `${name}.csv`), recording({ seed: index + 1 }));
}

const write = (uri: vscode.Uri, text: string): Thenable<void> =>
  vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));

/** A notebook of these cells beside four recordings, opened in the editor. */
export class Study {
  readonly notebook: vscode.NotebookDocument;

  private constructor(notebook: vscode.NotebookDocument) {
    this.notebook = notebook;
  }

  static async open(name: string, cells: readonly string[]): Promise<Study> {
    const folder = fileOf(name);
    await writeRuns(folder);
    const uri = vscode.Uri.joinPath(folder, `${name}.washboard.md`);
    await write(uri, `# A study\n\n${cells.map(fence).join('\n')}`);
    const notebook = await vscode.workspace.openNotebookDocument(uri);
    await vscode.window.showNotebookDocument(notebook);
    return new Study(notebook);
  }

  /** The code cells' documents. */
  get documents(): readonly vscode.TextDocument[] {
    return this.notebook
      .getCells()
      .filter(({ kind }) => kind === vscode.NotebookCellKind.Code)
      .map(({ document }) => document);
  }

  textOf(cell: number): string {
    return this.documents[cell].getText();
  }

  /** Where a text stands in a cell: the place before it, or that of the `^` inside it. */
  at(cell: number, marked: string): vscode.Position {
    const caret = marked.indexOf('^');
    const from = this.textOf(cell).indexOf(marked.replace('^', ''));
    assert.ok(from >= 0, `cell ${cell} has no ${marked}`);
    return this.documents[cell].positionAt(from + Math.max(0, caret));
  }

  rangeOf(cell: number, text: string): vscode.Range {
    const start = this.at(cell, text);
    return new vscode.Range(start, this.documents[cell].positionAt(this.documents[cell].offsetAt(start) + text.length));
  }

  /** Puts another text into a cell; gives the place of its `^`, which does not go in. */
  async write(cell: number, marked: string): Promise<vscode.Position> {
    const document = this.documents[cell];
    const caret = marked.indexOf('^');
    const text = marked.replace('^', '');
    const edit = new vscode.WorkspaceEdit();
    const whole = new vscode.Range(document.positionAt(0), document.positionAt(document.getText().length));
    edit.replace(document.uri, whole, text);
    assert.ok(await vscode.workspace.applyEdit(edit));
    return document.positionAt(caret < 0 ? text.length : caret);
  }

  diagnostics(cell: number): readonly vscode.Diagnostic[] {
    return vscode.languages
      .getDiagnostics(this.documents[cell].uri)
      .filter(({ source }) => source === 'washboard')
      .sort((a, b) => a.range.start.compareTo(b.range.start));
  }

  /** Waits until a cell has exactly these codes, in the order of the text. */
  async comesTo(cell: number, ...codes: readonly string[]): Promise<readonly vscode.Diagnostic[]> {
    const found = (): string[] => this.diagnostics(cell).map(codeOf);
    await settles(
      () => found().join(' ') === codes.join(' '),
      () => `cell ${cell}: ${found().join(' ')} instead of ${codes.join(' ')}`,
    );
    return this.diagnostics(cell);
  }

  async close(): Promise<void> {
    await this.notebook.save();
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
  }
}

export const codeOf = ({ code }: vscode.Diagnostic): string => String(typeof code === 'object' ? code.value : code);

/** Waits until something holds; says what there is instead when it does not in 20 s. */
export async function settles(holds: () => boolean | Promise<boolean>, instead: () => string): Promise<void> {
  const end = Date.now() + 20_000;
  while (!(await holds())) {
    if (Date.now() > end) assert.fail(instead());
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
