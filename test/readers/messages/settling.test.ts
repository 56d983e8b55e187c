import { strict as assert } from 'node:assert';
import { read, unwatched } from '../../../src/readers/read.ts';
import { readerPages } from '../../../src/readers/messagePages.ts';
import { load } from '../../../src/verbs/recordings/load.ts';
import { MemoryHost } from '../../engine/memoryFiles.ts';

describe('the options that would settle what a file leaves open', () => {
  const keywords = load.form.options.map(({ keyword }) => keyword);
  const bare = Object.entries(readerPages).filter(
    ([, { wrong }]) => wrong.load === 'load "run.csv"' && !/[…␀]/.test(wrong.file),
  );

  it('are options of load that the sentence speaks of', async () => {
    let settled = 0;
    for (const [code, { wrong }] of bare) {
      const found = await read(await new MemoryHost({ 'run.csv': wrong.file }).files.open('run.csv'), {}, unwatched);
      const messages = found.ok ? found.value.findings : [found.failure];
      for (const { settledBy = [], message } of messages) {
        settled += settledBy.length;
        for (const option of settledBy) {
          assert.ok(keywords.includes(option), `${code}: ${option}`);
          assert.match(message, new RegExp(`\\b${option}\\b`), code);
        }
      }
    }
    assert.ok(settled > 10, `${settled}`);
  });
});
