import { strict as assert } from 'node:assert';
import { openRide, rideCell, rideFile, rideText } from './ride.ts';

const cells = [rideCell, '# How it looks\nplot ride'];

describe('a notebook that is closed while a handle is dragged', function () {
  it('is as it was: nothing is written, and nothing fails', async () => {
    const { workbench, notebook } = await openRide(cells);
    try {
      const { page } = workbench;
      await notebook.reveal(2);
      const start = notebook
        .outputs()
        .getByRole('slider', { name: /^Trim start/ })
        .first();
      const box = (await start.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 60, y, { steps: 6 });
      await notebook.outputs().locator('.washboard-says:visible').first().waitFor();
      // The focus is in the outputs' frame, whose keys the editor takes on.
      await page.keyboard.press('Control+W');
      await page.locator('.tab').filter({ hasText: rideFile }).waitFor({ state: 'detached' });
      await page.mouse.up();
      await page.waitForTimeout(2000);
      assert.equal(Buffer.from(workbench.read(rideFile)).toString(), rideText(cells));
      assert.equal(await page.locator('.monaco-dialog-box').count(), 0);
      const again = await workbench.openNotebook(rideFile);
      assert.match(await again.textOf(1), /trim 2\.\.18 s/);
      assert.equal(await page.locator('.tab.active.dirty').count(), 0);
      assert.deepEqual(workbench.errors, []);
    } finally {
      await workbench.close();
    }
  });
});
