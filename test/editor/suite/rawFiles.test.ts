import { strict as assert } from 'node:assert';
import { readFileSync, renameSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import * as vscode from 'vscode';
import { settles, Study } from './study.ts';

/** Turns between plus and minus a level in g, so that the r.m.s. is the level; as many bytes whatever the level's digit is. */
function turning(level: number, seconds: number): string {
  const rows = ['t (s),z (g)'];
  for (let i = 0; i < 200 * seconds; i++) rows.push(`${(i / 200).toFixed(3)},${i % 2 === 0 ? '+' : '-'}${level}.000`);
  return rows.join('\n') + '\n';
}

describe('raw files that change while a notebook is open', function () {
  this.timeout(120_000);
  let study: Study;
  let path: string;

  const cell = (): vscode.NotebookCell =>
    study.notebook.getCells().find(({ kind }) => kind === vscode.NotebookCellKind.Code)!;
  const shown = (): string =>
    cell()
      .outputs.flatMap(({ items }) => items.filter(({ mime }) => mime === 'text/plain'))
      .map(({ data }) => Buffer.from(data).toString())
      .join('\n');
  /** The r.m.s. that stands in the table of levels; NaN where none does. */
  const rms = (): number => {
    const lines = shown().split('\n');
    const at = lines.findIndex((line) => /^Run\b.*\bR\.m\.s\. \(g\)/.test(line));
    if (at < 0) return NaN;
    const columns = lines[at].trim().split(/\s{2,}/);
    const row = lines[at + 2].trim().split(/\s{2,}/);
    return Number(row[columns.findIndex((column) => column === 'R.m.s. (g)')]);
  };
  const execute = (): Thenable<unknown> => {
    const { index } = cell();
    const ranges = [{ start: index, end: index + 1 }];
    return vscode.commands.executeCommand('notebook.cell.execute', { ranges, document: study.notebook.uri });
  };
  async function showsAfterRun(level: number): Promise<void> {
    const before = cell().executionSummary?.executionOrder;
    await execute();
    await settles(
      () => cell().executionSummary?.executionOrder !== before && cell().executionSummary?.success !== undefined,
      () => 'the cell has not run',
    );
    assert.equal(rms(), level, shown());
  }

  before(async () => {
    study = await Study.open('raw-files', ['levels (load "raw/turning.csv")']);
    path = vscode.Uri.joinPath(study.notebook.uri, '..', 'raw', 'turning.csv').fsPath;
    writeFileSync(path, turning(1, 20));
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
  });
  after(async () => study.close());

  it('give the new figure as soon as the cell is run again, though length and time are as they were', async () => {
    await showsAfterRun(1);
    for (const level of [2, 3]) {
      const [{ atime, mtime, size }, text] = [statSync(path), turning(level, 20)];
      writeFileSync(path, text);
      utimesSync(path, atime, mtime);
      assert.deepEqual([statSync(path).size, statSync(path).mtimeMs], [size, mtime.getTime()]);
      await showsAfterRun(level);
    }
    writeFileSync(`${path}.new`, turning(4, 20));
    renameSync(`${path}.new`, path);
    await showsAfterRun(4);
  });

  it('are refused, or read as they were or have become, where they change during the run, and give the new figure in the next', async () => {
    const [first, second] = [1, 2].map((level) => turning(level, 4000));
    for (const wait of [0, 60, 200]) {
      writeFileSync(path, first);
      const before = cell().executionSummary?.executionOrder;
      const running = execute();
      await new Promise((resolve) => setTimeout(resolve, wait));
      writeFileSync(path, second);
      await running;
      await settles(
        () => cell().executionSummary?.executionOrder !== before && cell().executionSummary?.success !== undefined,
        () => 'the cell has not run',
      );
      const isRefused = /was written|changed/.test(shown());
      assert.ok(isRefused || rms() === 1 || rms() === 2, shown());
      await showsAfterRun(2);
    }
    assert.equal(readFileSync(path, 'utf8'), second);
  });
});
