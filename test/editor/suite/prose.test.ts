import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { codeOf, settles } from './study.ts';
import { fileOf, notebookComesTo } from './workspace.ts';

const cell = '```washboard\nk = 3 N/mm\nsoft = k / 4\n```\n';
const prose =
  'The spring has 4.0 N/mm<!-- = k -->, the soft one **0.75 N/mm**<!-- = soft -->, a third 1<!-- = third -->.';

describe('numbers in prose in an editor', () => {
  let notebook: vscode.NotebookDocument;
  const document = (): vscode.TextDocument => notebook.cellAt(0).document;

  before(async () => {
    const uri = fileOf('prose', 'prose.washboard.md');
    await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(`${prose}\n\n${cell}`));
    notebook = await vscode.workspace.openNotebookDocument(uri);
    await vscode.window.showNotebookDocument(notebook);
    await notebookComesTo(() => true);
  });
  after(() => vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor'));

  const problems = (): vscode.Diagnostic[] =>
    vscode.languages
      .getDiagnostics(document().uri)
      .filter(({ source }) => source === 'washboard')
      .sort((a, b) => a.range.start.compareTo(b.range.start));
  const comeTo = (...codes: string[]): Promise<void> =>
    settles(
      () => problems().map(codeOf).join(' ') === codes.join(' '),
      () => `${problems().map(codeOf).join(' ')} instead of ${codes.join(' ')}`,
    );

  it('have squiggles where they differ or name nothing, and none elsewhere', async () => {
    await comeTo('prose.differs', 'name.unknown');
    const [differing] = problems();
    assert.equal(document().getText(differing.range), '4.0');
    assert.equal(differing.message, 'The text says 4.0 N/mm, and k is 3.0 N/mm.');
    assert.equal(differing.severity, vscode.DiagnosticSeverity.Warning);
    assert.equal(problems()[1].severity, vscode.DiagnosticSeverity.Error);
  });

  it('have a fix that writes one, as one step that can be undone', async () => {
    // What acts on a text wants it open in an editor.
    const editor = vscode.window.activeNotebookEditor;
    assert.ok(editor);
    editor.selection = new vscode.NotebookRange(0, 1);
    await vscode.commands.executeCommand('notebook.cell.edit');
    const [{ range }] = problems();
    const fixes = await vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document().uri,
      range,
    );
    const fix = fixes.find(({ title }) => title === 'Write 3.0');
    assert.ok(fix?.edit && fix.isPreferred, fixes.map(({ title }) => title).join(', '));
    await vscode.workspace.applyEdit(fix.edit);
    assert.equal(document().getText(), prose.replace('4.0', '3.0'));
    await comeTo('name.unknown');
  });

  it('are all written by one command, after the results changed', async () => {
    const code = notebook.cellAt(1).document;
    const edit = new vscode.WorkspaceEdit();
    edit.replace(code.uri, new vscode.Range(0, 4, 0, 5), '7');
    await vscode.workspace.applyEdit(edit);
    await comeTo('prose.differs', 'prose.differs', 'name.unknown');
    await vscode.commands.executeCommand('washboard.writeAllNumbers');
    assert.equal(document().getText(), prose.replace('4.0', '7.0').replace('0.75', '1.75'));
    await comeTo('name.unknown');
  });

  it('are offered in prose with their marks, and within a mark by name', async () => {
    const offered = async (text: string): Promise<vscode.CompletionItem | undefined> => {
      const edit = new vscode.WorkspaceEdit();
      edit.insert(document().uri, new vscode.Position(0, 0), text);
      await vscode.workspace.applyEdit(edit);
      const { items } = await vscode.commands.executeCommand<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        document().uri,
        new vscode.Position(0, text.length),
      );
      return items.find(({ label }) => (typeof label === 'string' ? label : label.label) === 'soft');
    };
    assert.equal((await offered('so'))?.insertText, '1.75 N/mm<!-- = soft -->');
    assert.equal((await offered('2<!-- = so'))?.insertText, 'soft');
  });
});
