import { strict as assert } from 'node:assert';
import { join } from 'node:path';
import { projectFolder, Workbench, type OpenNotebook, type Theme } from '../harness.ts';

const text = `# Springs

The spring has **4.0 N/mm**<!-- = k -->, the soft one 0.75 N/mm<!-- = soft -->.

\`\`\`washboard
k = 3 N/mm
soft = k / 4
\`\`\`
`;

describe('a number in rendered prose, in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;
  before(async () => {
    workbench = await Workbench.open({ files: { 'springs.washboard.md': text } });
    notebook = await workbench.openNotebook('springs.washboard.md');
  });
  after(async () => workbench?.close());

  const marks = () => notebook.outputs().locator('.washboard-number');

  it('has a quiet mark where it differs, with the sentence, and none where it agrees', async () => {
    await marks().filter({ hasText: '≠ 3.0' }).waitFor();
    assert.equal(await marks().count(), 2);
    assert.equal(await marks().nth(1).isVisible(), false);
    const note = notebook.outputs().getByRole('note');
    assert.deepEqual(await note.allTextContents(), [' ≠ 3.0']);
    assert.equal(await note.getAttribute('aria-label'), 'The text says 4.0 N/mm, and k is 3.0 N/mm.');
    for (const theme of ['dark', 'high-contrast', 'high-contrast-light', 'light'] satisfies Theme[]) {
      await workbench.theme(theme);
      await workbench.screenshot(join(projectFolder, 'out', 'screenshots', `prose-${theme}.png`));
    }
  });

  it('loses it once the result is what it says', async () => {
    await notebook.editCell(1, 'k = 4 N/mm\nsoft = k / 4');
    await marks().nth(1).filter({ hasText: '≠ 1.00' }).waitFor();
    assert.equal(await marks().nth(0).isVisible(), false);
    assert.deepEqual(workbench.errors, []);
  });
});
