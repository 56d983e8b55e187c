import { strict as assert } from 'node:assert';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { OpenNotebook, projectFolder, until, Workbench } from '../harness.ts';

const file = 'drag.washboard.md';
const cells = [
  'ride = load "three-pads/brick-foam-1.csv.gz" | channel z | trim 1..30 s\nplot ride',
  'plot (spectrum ride) over 1..60 Hz',
];

/** What `npx tsx scripts/media/filmStrip.ts` puts together: pictures of the part of the window that shows cells and charts. */
describe('a drag in a served editor, picture by picture', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;

  before(async () => {
    const fences = cells.map((cell) => `\`\`\`washboard\n${cell}\n\`\`\`\n`).join('\n');
    workbench = await Workbench.open({
      from: join(projectFolder, 'samples'),
      files: { [file]: fences },
      theme: 'light',
    });
    notebook = await workbench.openNotebook(file);
    await notebook.runAll();
    for (const at of [0, 1]) assert.equal(await notebook.ended(at), 'success');
  });
  after(async () => workbench?.close());

  const start = (): Locator => notebook.outputs().getByRole('slider', { name: /^Trim start/ });
  const spectrum = (): Promise<string> => notebook.outputs().locator('.washboard-drawing svg').last().innerHTML();
  async function picture(n: number): Promise<void> {
    const path = join(projectFolder, 'out', 'screenshots', `drag-${n}.png`);
    await workbench.page.screenshot({ path, clip: { x: 356, y: 118, width: 1030, height: 850 } });
  }

  it('shows what the moved trim makes of the spectrum before it is written', async () => {
    await notebook.reveal(0);
    await picture(1);
    const box = (await start().boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await workbench.page.mouse.move(x, y);
    await workbench.page.mouse.down();
    for (let frame = 2; frame <= 5; frame++) {
      const before = await spectrum();
      await workbench.page.mouse.move(x + 45 * (frame - 1), y, { steps: 5 });
      await until(async () => (await spectrum()) !== before, 'a spectrum that follows');
      await picture(frame);
      assert.equal(await notebook.outputs().locator('.washboard-says:visible').count(), 1);
    }
    await workbench.page.mouse.up();
    await until(
      async () => !(await notebook.textOf(0)).includes('trim 1..'),
      async () => `a moved trim: ${await notebook.textOf(0)}`,
    );
    const late = workbench.page.locator('.notebookOverlay').getByText('Out of date');
    await until(async () => (await late.count()) === 0, 'charts that are up to date');
    for (const at of [0, 1]) assert.equal(await notebook.ended(at), 'success');
    await notebook.reveal(0);
    await picture(6);
    assert.deepEqual(workbench.errors, []);
  });
});
