import { strict as assert } from 'node:assert';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { diskHistory } from '../../src/disk/history.ts';
import { commitAll, gitIn, hasGit } from './git.ts';

describe('the history of a notebook’s folder', () => {
  let folder: string;
  beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'history-'))));
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  function commit(name: string, text: string, at: number): void {
    writeFileSync(join(folder, name), text);
    commitAll(folder, at);
  }

  it('tells since when a text stands in a notebook as it is, and when the first of some files came in', async function () {
    if (!hasGit()) this.skip();
    gitIn(folder, 'init', '-q');
    commit('a.md', 'p = plan "Less?"\n  primary 10..50 Hz\n', 1_700_000_000);
    commit('run.csv', '1\n', 1_700_100_000);
    commit('a.md', 'p = plan "Less?"\n  primary 10..50 Hz\n\nMore.\n', 1_700_200_000);
    const history = diskHistory(folder);
    assert.match((await history.head()) ?? '', /^[0-9a-f]{40,}$/);
    assert.equal((await history.textSince('plan "Less?"\n  primary 10..50 Hz'))?.at, 1_700_000_000);
    assert.equal(await history.textSince('plan "Less?" primary 4..10 Hz'), null);
    assert.equal((await history.firstOf(['run.csv', 'not-there.csv']))?.at, 1_700_100_000);
    assert.equal(await history.firstOf(['not-there.csv']), null);
    commit('a.md', 'Gone.\n', 1_700_300_000);
    assert.equal(await history.textSince('plan "Less?"\n  primary 10..50 Hz'), null);
    writeFileSync(join(folder, '.git', 'shallow'), `${await history.head()}\n`);
    assert.equal(await history.firstOf(['run.csv']), undefined);
  }).timeout(20_000);

  it('knows nothing outside a repository', async () => {
    const history = diskHistory(folder);
    assert.deepEqual(
      [await history.head(), await history.textSince('a'), await history.firstOf(['a.csv'])],
      [undefined, undefined, undefined],
    );
  });
});
