import { until, Workbench } from '../editor/harness.ts';
import { medianOf, type Row } from './row.ts';

/** Opened only when it is named: it serves an editor, and needs `npm run build` before. */
export const isForItself = true;

const turns = 10;
/** ms after which the editor has started. */
const rest = 6000;
const file = 'springs.washboard.md';

/** How long the editor waits for the extension when it opens a notebook, by the editor's own list of running extensions. */
export async function rows(): Promise<Row[]> {
  const workbench = await Workbench.open({ files: { [file]: '```washboard\n2 N/mm\n```\n' }, theme: 'light' });
  try {
    const times: number[] = [];
    while (times.length < turns) {
      // The start of the editor itself would be counted else: all processors have their hands full of it.
      await workbench.page.waitForTimeout(rest);
      await workbench.openNotebook(file);
      times.push(await told(workbench));
      // What is open would be opened again by the next start.
      await workbench.command('View: Close All Editors');
      await workbench.page.locator('.tab').first().waitFor({ state: 'detached' });
      await workbench.reload();
    }
    const note = `served editor, time on the wall, ${turns} starts, ${Math.min(...times)} to ${Math.max(...times)} ms`;
    return [{ what: 'activation of the extension by a notebook', ours: medianOf(times), goal: 50, note }];
  } finally {
    await workbench.close();
  }
}

async function told(workbench: Workbench): Promise<number> {
  const { page } = workbench;
  await workbench.command('Developer: Show Running Extensions');
  const row = page.locator('.runtime-extensions-editor .monaco-list-row').filter({ hasText: 'Washboard' }).first();
  let found: RegExpExecArray | null = null;
  await until(async () => {
    found = /Activation: (\d+)ms/.exec((await row.textContent().catch(() => '')) ?? '');
    return found !== null;
  }, 'the time of activation');
  // The list lies over the window, and over its commands.
  await page.keyboard.press('Escape');
  await row.waitFor({ state: 'detached' });
  return Number(found![1]);
}
