import { strict as assert } from 'node:assert';
import { openNotebook } from '../../src/cli/notebookFile.ts';
import { runAll } from '../../src/cli/runWhole.ts';
import { folder } from './notebooks.ts';

/** How many numbers each notebook's prose has at least that say what they are. */
const least = { 'seat-pad.washboard.md': 34, 'springs.washboard.md': 5, 'three-pads.washboard.md': 30 };

for (const [notebook, count] of Object.entries(least))
  describe(`the numbers in the prose of ${notebook}`, () => {
    it('agree with the results, each of them', async () => {
      const opened = openNotebook(folder + notebook, {});
      assert.ok(opened.ok);
      const { numbers } = await runAll(opened.value);
      assert.ok(numbers.length >= count, `${numbers.length}`);
      const others = numbers.flatMap((one, at) =>
        one.state === 'agrees' ? [] : [`line ${opened.value.numbers[at].line}: ${one.state}`],
      );
      assert.deepEqual(others, []);
    }).timeout(120_000);
  });
