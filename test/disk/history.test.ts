import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { diskHistory } from '../../src/disk/history.ts';

describe('the history of a notebook’s folder', () => {
  let folder: string;
  beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'history-'))));
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  const git = (...args: string[]): void => void execFileSync('git', ['-C', folder, ...args], { stdio: 'ignore' });
  function commit(name: string, text: string, at: number): void {
    writeFileSync(join(folder, name), text);
    git('add', '.');
    const date = `${at} +0000`;
    const who = ['-c', 'user.name=a', '-c', 'user.email=a@b.invalid'];
    execFileSync('git', ['-C', folder, ...who, 'commit', '-qm', 'x'], {
      env: { ...process.env, GIT_COMMITTER_DATE: date, GIT_AUTHOR_DATE: date },
    });
  }

  it('tells since when a text stands in a notebook as it is, and when the first of some files came in', async () => {
    git('init', '-q');
    commit('a.md', 'p = plan "Less?"\n  primary 10..50 Hz\n', 1_700_000_000);
    commit('run.csv', '1\n', 1_700_100_000);
    commit('a.md', 'p = plan "Less?"\n  primary 10..50 Hz\n\nMore.\n', 1_700_200_000);
    const history = diskHistory(folder);
    assert.match((await history.head()) ?? '', /^[0-9a-f]{40,}$/);
    assert.equal((await history.textSince('plan "Less?"\n  primary 10..50 Hz'))?.at, 1_700_000_000);
    assert.equal(await history.textSince('plan "Less?" primary 4..10 Hz'), undefined);
    assert.equal((await history.firstOf(['run.csv', 'not-there.csv']))?.at, 1_700_100_000);
    assert.equal(await history.firstOf(['not-there.csv']), undefined);
    commit('a.md', 'Gone.\n', 1_700_300_000);
    assert.equal(await history.textSince('plan "Less?"\n  primary 10..50 Hz'), undefined);
  }).timeout(20_000);

  it('knows nothing outside a repository', async () => {
    const history = diskHistory(folder);
    assert.deepEqual(
      [await history.head(), await history.textSince('a'), await history.firstOf(['a.csv'])],
      [undefined, undefined, undefined],
    );
  });
});
