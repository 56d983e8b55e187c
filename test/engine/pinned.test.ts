import { strict as assert } from 'node:assert';
import { pinned, pinnedHistory } from '../../src/engine/pinned.ts';
import { success } from '../../src/result/result.ts';
import type { Files } from '../../src/values/ports.ts';

describe('files as they were when a run first looked at them', () => {
  it('stand for the same paths throughout, which are asked for once', async () => {
    const asked: string[] = [];
    const files: Files = {
      expand: (pattern, of) => {
        asked.push(of === undefined ? pattern : `${of}: ${pattern}`);
        return Promise.resolve(success([`${pattern}, the ${asked.length}.`]));
      },
      open: () => Promise.reject(new Error('no file is opened')),
      identify: () => Promise.reject(new Error('no file is hashed')),
    };
    const run = pinned(files);
    assert.deepEqual(await run.expand('a.csv'), success(['a.csv, the 1.']));
    assert.deepEqual(await run.expand('b.csv'), success(['b.csv, the 2.']));
    assert.deepEqual(await run.expand('a.csv'), success(['a.csv, the 1.']));
    // A refusal names the line that asks.
    assert.deepEqual(await run.expand('a.csv', 'runs.csv:2'), success(['a.csv, the 3.']));
    assert.deepEqual(asked, ['a.csv', 'b.csv', 'runs.csv:2: a.csv']);
    assert.deepEqual(await pinned(files).expand('a.csv'), success(['a.csv, the 4.']));
  });

  it('stand at the same commit throughout, which is asked for once', async () => {
    let asked = 0;
    const nothing = (): Promise<undefined> => Promise.resolve(undefined);
    const run = pinnedHistory({
      head: () => Promise.resolve(`commit ${++asked}`),
      textSince: nothing,
      firstOf: nothing,
    });
    assert.deepEqual([await run.head(), await run.head(), asked], ['commit 1', 'commit 1', 1]);
  });
});
