import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { runStaleByCount } from '../../../src/editor/staleCommands.ts';
import { settles, Study } from './study.ts';

describe('what is out of date', () => {
  let study: Study;
  const setting = (wanted: boolean | undefined): Thenable<void> =>
    vscode.workspace.getConfiguration('washboard').update('runAfterEdit', wanted, vscode.ConfigurationTarget.Workspace);
  const cells = (): vscode.NotebookCell[] =>
    study.notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);
  const shown = (): string =>
    cells()
      .map(({ outputs }) =>
        outputs
          .flatMap(({ items }) => items.filter(({ mime }) => mime === 'text/plain'))
          .map(({ data }) => Buffer.from(data).toString().replace(/\s+/g, ' '))
          .join(),
      )
      .join('|');
  const comesTo = (wanted: RegExp): Promise<void> =>
    settles(
      () => wanted.test(shown()),
      () => `${shown()} instead of ${wanted.source}`,
    );
  const orders = (): (number | undefined)[] => cells().map(({ executionSummary }) => executionSummary?.executionOrder);

  before(async () => {
    study = await Study.open('stale', ['k = 3 N/mm', 'soft = k / 4', 'softer = soft / 2', 'm = 2 kg']);
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
    await vscode.commands.executeCommand('notebook.execute');
    await comesTo(/3(\.0)? N\/mm\|.*0\.75 N\/mm\|.*0\.375 N\/mm\|.*2(\.0)? kg/);
  });
  after(async () => {
    await setting(undefined);
    await study.close();
  });

  it('stays as it is after an edit, and runs by one command, what is up to date left alone', async () => {
    const before = orders();
    await study.write(0, 'k = 4 N/mm');
    await new Promise((resolve) => setTimeout(resolve, 2500));
    assert.deepEqual(orders(), before);
    await vscode.commands.executeCommand('washboard.runStale');
    await comesTo(/4(\.0)? N\/mm\|.*1(\.0+)? N\/mm\|.*0\.50* N\/mm\|.*2(\.0)? kg/);
    assert.deepEqual(
      orders().map((order, at) => order !== before[at]),
      [true, true, true, false],
    );
    await settles(
      () => cells().every(({ executionSummary }) => executionSummary?.success === true),
      () => 'a cell has not ended well',
    );
  });

  it('runs by the command of each count, which the toolbar gives its notebook', async () => {
    const known = await vscode.commands.getCommands(true);
    assert.deepEqual(
      runStaleByCount.filter((command) => !known.includes(command)),
      [],
    );
    for (const [command, stiffness, soft] of [
      [runStaleByCount[2], 20, 5],
      [runStaleByCount[runStaleByCount.length - 1], 28, 7],
    ] as const) {
      await study.write(0, `k = ${stiffness} N/mm`);
      await vscode.commands.executeCommand(command, { notebookEditor: { notebookUri: study.notebook.uri } });
      await comesTo(new RegExp(`${stiffness}(\\.0+)? N/mm\\|.*\\b${soft}(\\.0+)? N/mm\\|`));
    }
  });

  it('runs by itself once an edit pauses, where that is wanted, and not while a text has mistakes', async () => {
    await setting(true);
    await study.write(0, 'k = 8 N/mm');
    await comesTo(/8(\.0)? N\/mm\|.*2(\.0+)? N\/mm\|.*1(\.0+)? N\/mm/);
    const before = orders();
    await study.write(0, 'k = 9 N/');
    await new Promise((resolve) => setTimeout(resolve, 4000));
    assert.deepEqual(orders(), before);
    await study.write(0, 'k = 12 N/mm');
    await comesTo(/12(\.0)? N\/mm\|.*3(\.0+)? N\/mm\|/);
  });
});
