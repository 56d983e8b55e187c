import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { recording } from '../../engine/memoryFiles.ts';
import { until, Workbench, type OpenNotebook } from '../harness.ts';

const notebookText = '# Pads\n\n```washboard\nride =\n```\n\n```washboard\n3 N/mm\n```\n';

describe('recordings that are dropped into a cell, in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;
  let desktop: string;

  before(async () => {
    desktop = mkdtempSync(join(tmpdir(), 'washboard-desktop-'));
    for (const seed of [1, 2]) writeFileSync(join(desktop, `gel-${seed}.csv`), recording({ seed }));
    const files = Object.fromEntries([1, 2].map((seed) => [`raw/foam-${seed}.csv`, recording({ seed: 10 + seed })]));
    workbench = await Workbench.open({ files: { ...files, 'a.washboard.md': notebookText }, theme: 'light' });
    notebook = await workbench.openNotebook('a.washboard.md');
  });
  after(async () => {
    await workbench?.close();
    rmSync(desktop, { recursive: true, force: true });
  });

  /** The end of a cell's only line; the editor takes a place beyond it for the line's beginning. */
  const endOf = async (cell: number): Promise<{ readonly x: number; readonly y: number }> => {
    const text = (await notebook.reveal(cell)).locator('.cell-editor-container .view-line > span').first();
    const { x, y, width, height } = (await text.boundingBox())!;
    return { x: x + width - 1, y: y + height / 2 };
  };

  it('come from the explorer as a load behind what waits for it', async () => {
    const { page } = workbench;
    const rows = page.locator('.explorer-folders-view .monaco-list-row');
    await rows.filter({ hasText: 'raw' }).first().click();
    const from = (await rows.filter({ hasText: 'foam-1.csv' }).first().boundingBox())!;
    const to = await endOf(1);
    await page.mouse.move(from.x + 60, from.y + 8);
    await page.mouse.down();
    await page.mouse.move(from.x + 90, from.y + 20, { steps: 4 });
    // Held from the beginning it would choose files.
    await page.keyboard.down('Shift');
    await page.mouse.move(to.x, to.y, { steps: 10 });
    await page.mouse.up();
    await page.keyboard.up('Shift');
    await until(
      async () => /^ride =\s?load "raw\/foam-1\.csv"/.test(await notebook.textOf(1)),
      () => notebook.textOf(1),
    );
  });

  it('come from outside as copies beside the other recordings, on a line of their own', async () => {
    const { page } = workbench;
    const { x, y } = await endOf(2);
    const session = await page.context().newCDPSession(page);
    const data = { items: [], files: readdirSync(desktop).map((name) => join(desktop, name)), dragOperationsMask: 1 };
    await page.keyboard.down('Shift');
    for (const type of ['dragEnter', 'dragOver', 'dragOver', 'drop'] as const) {
      await session.send('Input.dispatchDragEvent', { type, x, y, data, modifiers: 8 });
      await page.waitForTimeout(300);
    }
    await page.keyboard.up('Shift');
    const text = (): Promise<string> => notebook.textOf(2);
    await until(async () => /^3 N\/mm\nload "raw\/gel-\*\.csv"/.test(await text()), text);
    // The editor writes the text before it makes the files.
    const copy = (seed: number): string => join(workbench.folder, 'raw', `gel-${seed}.csv`);
    const isWhole = (seed: number): boolean =>
      existsSync(copy(seed)) && readFileSync(copy(seed), 'utf8') === recording({ seed });
    await until(() => Promise.resolve([1, 2].every(isWhole)), 'the copies to be as the files that were dropped');
  });
});
