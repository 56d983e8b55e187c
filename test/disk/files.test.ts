import type { Result } from '../../src/result/result.ts';
import { strict as assert } from 'node:assert';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { diskFiles } from '../../src/disk/files.ts';
import type { Files } from '../../src/values/ports.ts';

const paths = (list: Result<readonly string[]>): readonly string[] =>
  list.ok ? list.value : assert.fail(list.failure.message);
const sentence = (list: Result<readonly string[]>): string =>
  list.ok ? assert.fail(`found ${list.value.join(', ')}`) : list.failure.message;

describe('the files of a project', () => {
  let root: string;
  let files: Files;

  before(() => {
    root = mkdtempSync(join(tmpdir(), 'washboard-files-'));
    mkdirSync(join(root, 'study', 'raw'), { recursive: true });
    for (const name of ['run 10.csv', 'run 2.csv', 'run 1.csv', 'notes.txt', '.run 3.csv', 'a[1].csv'])
      writeFileSync(join(root, 'study', 'raw', name), name);
    writeFileSync(join(root, 'shared.csv'), 'shared');
    mkdirSync(join(root, '..', 'outside-of-washboard-test'), { recursive: true });
    writeFileSync(join(root, '..', 'outside-of-washboard-test', 'secret.csv'), 'secret');
    symlinkSync(join(root, '..', 'outside-of-washboard-test', 'secret.csv'), join(root, 'study', 'raw', 'link.csv'));
    files = diskFiles(join(root, 'study'), root);
  });
  after(() => {
    rmSync(root, { recursive: true });
    rmSync(join(root, '..', 'outside-of-washboard-test'), { recursive: true });
  });

  it('come in natural order, without hidden ones', async () => {
    assert.deepEqual(paths(await files.expand('raw/run*.csv')), ['raw/run 1.csv', 'raw/run 2.csv', 'raw/run 10.csv']);
    assert.deepEqual(paths(await files.expand('r?w/run ?.csv')), ['raw/run 1.csv', 'raw/run 2.csv']);
  });

  it('take every other sign of a pattern as it stands', async () => {
    assert.deepEqual(paths(await files.expand('raw/a[1].*')), ['raw/a[1].csv']);
    assert.match(sentence(await files.expand('raw/a[2].*')), /No file matches "raw\/a\[2\]\.\*"/);
  });

  it('may lie above the notebook within the project', async () => {
    assert.deepEqual(paths(await files.expand('../shared.csv')), ['../shared.csv']);
  });

  it('are refused outside the project, however they are named', async () => {
    for (const path of [
      '../../outside-of-washboard-test/secret.csv',
      '../../outside-of-washboard-test/*.csv',
      'raw/link.csv',
      'raw/l*.csv',
      '../study/../../x.csv',
    ]) {
      assert.match(sentence(await files.expand(path)), /lies outside the project folder/, path);
    }
    assert.match(sentence(await files.expand('/etc/hostname')), /is an absolute path/);
    assert.match(sentence(await files.expand('C:\\runs\\a.csv')), /is an absolute path/);
    assert.match(sentence(await files.expand('https://example.org/a.csv')), /is an address/);
  });

  it('are named when they are missing, with the nearest name that exists', async () => {
    assert.equal(
      sentence(await files.expand('raw/run 11.csv')),
      'There is no file "raw/run 11.csv": did you mean "raw/run 1.csv"?',
    );
    assert.equal(
      sentence(await files.expand('rwa/run 1.csv')),
      'There is no file "rwa/run 1.csv": its folder "rwa/" does not exist.',
    );
    assert.match(sentence(await files.expand('raw')), /"raw" is a folder: name its files, as in "raw\/\*\.csv"/);
  });

  it('are known by the SHA-256 of their bytes, again after they changed', async () => {
    const digest = (text: string): string => createHash('sha256').update(text).digest('hex');
    assert.deepEqual(await files.identify('raw/notes.txt'), { bytes: 9, sha256: digest('notes.txt') });
    writeFileSync(join(root, 'study', 'raw', 'notes.txt'), 'other');
    assert.deepEqual(await files.identify('raw/notes.txt'), { bytes: 5, sha256: digest('other') });
  });

  it('are read in pieces', async () => {
    const source = await files.open('raw/run 10.csv');
    assert.equal(source.size, 10);
    assert.equal(Buffer.from(await source.read(4, 3)).toString(), '10.');
    assert.equal((await source.read(8, 100)).length, 2);
    assert.equal((await source.read(50, 10)).length, 0);
  });
});
