import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import type { Literal } from '../../../src/charts/handle.ts';
import { Moves, type Around } from '../../../src/editor/handles/moves.ts';
import { runsOn } from '../../../src/editor/here.ts';
import type { Platform } from '../../../src/editor/platform.ts';
import type { EngineThreads } from '../../../src/editor/engineThreads.ts';
import { settles, Study } from './study.ts';
import { fileOf } from './workspace.ts';

describe('a literal that is moved while its cell is edited', () => {
  let study: Study;
  before(async () => {
    // The tests' own copy of these files was told by no entry.
    runsOn({
      pathOf: ({ fsPath }: vscode.Uri) => fsPath,
      projectRoot: (folder: string) => folder,
    } as unknown as Platform);
    study = await Study.open('moves', ['k = 3 N/mm', 'soft = k / 4']);
  });
  after(() => study.close());

  it('is sought again in the text as it is by then, and nothing else is written over', async () => {
    const cells = study.notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);
    const text = (): string => cells[0].document.getText();
    let asked = 0;
    const engine = {
      async move(_: unknown, { cells: texts }: { readonly cells: readonly string[] }) {
        const from = texts[0].indexOf('3');
        // Typed while the engine looks for the number.
        if (asked++ === 0) await study.write(0, '# stiffness of the pad\nk = 3 N/mm');
        return { edit: { cell: 0, from, to: from + 1, text: '5' }, outputs: [] };
      },
    };
    const refused: unknown[] = [];
    const around: Around = {
      engine: engine as unknown as EngineThreads,
      update: () => Promise.resolve(),
      cellsBehind: () => cells,
      textsBehind: () => cells.map(({ document }) => document.getText()),
      tell: (message) => refused.push(message),
    };
    const literal = { cell: 0, from: 4, to: 5, text: '3' } as Literal;
    const editor = { notebook: study.notebook } as vscode.NotebookEditor;
    await new Moves(around).receive({ type: 'move', output: 'one', literal, text: '5' }, editor);
    assert.deepEqual(refused, []);
    assert.equal(text(), '# stiffness of the pad\nk = 5 N/mm');
    assert.equal(asked, 2);
  });

  it('leaves no preview behind where it is refused: what the cells show is shown again', async () => {
    const cells = study.notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);
    await vscode.commands.executeCommand('notebook.execute', study.notebook.uri);
    await settles(
      () => cells[1].outputs.length > 0,
      () => 'an output',
    );
    const told: Parameters<Around['tell']>[0][] = [];
    const around: Around = {
      engine: { move: () => Promise.resolve({ refusal: 'It is gone.', outputs: [] }) } as unknown as EngineThreads,
      update: () => Promise.reject(new Error('nothing is to be run')),
      cellsBehind: () => cells,
      textsBehind: () => [],
      tell: (message) => told.push(message),
    };
    const literal = { cell: 0, from: 4, to: 5, text: '3' } as Literal;
    const editor = { notebook: study.notebook } as vscode.NotebookEditor;
    await new Moves(around).receive({ type: 'move', output: 'one', literal, text: '5' }, editor);
    assert.deepEqual(
      told.map(({ type }) => type),
      ['previewed', 'refused'],
    );
    const shown = told[0].type === 'previewed' ? told[0].shown : [];
    assert.deepEqual(
      shown.map(({ output }) => output),
      cells.flatMap(({ outputs }) => outputs.map(({ metadata }) => metadata?.['washboard'] as string)),
    );
    assert.ok(shown.length > 0 && shown.every(({ data }) => data.parts.length > 0));
  });

  it('writes nothing once the notebook is closed, and opens it no more', async () => {
    const uri = fileOf('closing.washboard.md');
    await vscode.workspace.fs.writeFile(uri, Buffer.from('```washboard\nk = 3 N/mm\n```\n'));
    // As a user does: what an extension opens stays open for minutes.
    await vscode.commands.executeCommand('vscode.openWith', uri, 'washboard-notebook');
    const notebook = vscode.window.activeNotebookEditor!.notebook;
    assert.equal(notebook.uri.toString(), uri.toString());
    const cells = notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);
    const before = await vscode.workspace.fs.readFile(notebook.uri);
    const engine = {
      async move() {
        await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
        await settles(
          () => notebook.isClosed,
          () => 'a notebook that stays open',
        );
        return { edit: { cell: 0, from: 4, to: 5, text: '5' }, outputs: [] };
      },
    };
    const told: unknown[] = [];
    const around: Around = {
      engine: engine as unknown as EngineThreads,
      update: () => Promise.reject(new Error('nothing is left to be run')),
      cellsBehind: () => cells,
      textsBehind: () => [],
      tell: (message) => told.push(message),
    };
    const literal = { cell: 0, from: 4, to: 5, text: '3' } as Literal;
    const editor = { notebook } as vscode.NotebookEditor;
    await new Moves(around).receive({ type: 'move', output: 'one', literal, text: '5' }, editor);
    assert.deepEqual(told, []);
    assert.deepEqual(await vscode.workspace.fs.readFile(notebook.uri), before);
    const isOpen = vscode.workspace.notebookDocuments.some(({ uri }) => uri.toString() === notebook.uri.toString());
    assert.equal(isOpen, false);
  });
});
