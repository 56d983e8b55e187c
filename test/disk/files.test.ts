import type { Result } from '../../src/result/result.ts';
import { strict as assert } from 'node:assert';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, statSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { diskFiles } from '../../src/disk/files.ts';
import { nodeDisk } from '../../src/disk/nodeDisk.ts';
import { read } from '../../src/readers/read.ts';
import { fileOf } from '../../src/result/fileNames.ts';
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

  it('lack none that its folder lists, though it is gone or its link leads nowhere', async () => {
    const link = join(root, 'study', 'raw', 'run 4.csv');
    symlinkSync(join(root, 'study', 'raw', 'moved.csv'), link);
    assert.match(sentence(await files.expand('raw/run*.csv')), /^There is no file "raw\/run 4\.csv"/);
    rmSync(link);
  });

  it('are taken as their folder lists them, without a look at each', async () => {
    const { stat, real } = nodeDisk;
    const asked: string[] = [];
    const note =
      <T>(of: (address: string) => Promise<T>) =>
      (address: string): Promise<T> => {
        asked.push(fileOf(address));
        return of(address);
      };
    [nodeDisk.stat, nodeDisk.real] = [note(stat), note(real)];
    try {
      assert.ok(paths(await files.expand('raw/run*.csv')).length > 1);
      assert.deepEqual(
        asked.filter((name) => name.startsWith('run')),
        [],
      );
    } finally {
      [nodeDisk.stat, nodeDisk.real] = [stat, real];
    }
  });

  it('lack none of a folder that can’t be listed, whether a pattern names it or meets it', async () => {
    const { list } = nodeDisk;
    nodeDisk.list = (address) => (address.endsWith('raw') ? Promise.resolve(undefined) : list(address));
    try {
      for (const pattern of ['raw/run*.csv', '*/run 1.csv', '*/run*.csv', 'r*/r?n*.csv']) {
        const found = await files.expand(pattern);
        if (pattern === '*/run 1.csv') assert.deepEqual(paths(found), ['raw/run 1.csv'], 'needs no list');
        else assert.match(sentence(found), /^The folder "raw" can't be listed, .* match "[r*]/, pattern);
      }
      assert.match(sentence(await files.expand('lost/run*.csv')), /^No file matches/, 'there is no such folder');
    } finally {
      nodeDisk.list = list;
    }
  });

  it('name the line of a run sheet that names a file which is not there', async () => {
    const alone = sentence(await files.expand('raw/lost.csv'));
    assert.equal(sentence(await files.expand('raw/lost.csv', 'runs.csv:3')), `runs.csv:3: ${alone}`);
    assert.deepEqual(paths(await files.expand('raw/run 1.csv', 'runs.csv:3')), ['raw/run 1.csv']);
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
      const said = sentence(await files.expand(path));
      assert.match(
        said,
        /lies outside the project folder.*: put a copy into the project folder and name that\.$/,
        path,
      );
    }
    const copyIt = /is an absolute path.* put a copy into the project folder if it lies elsewhere\.$/;
    assert.match(sentence(await files.expand('/etc/hostname')), copyIt);
    assert.match(sentence(await files.expand('C:\\runs\\a.csv')), copyIt);
    assert.match(
      sentence(await files.expand('https://example.org/a.csv')),
      /is an address: save the file in the project/,
    );
  });

  it('are refused in a folder that leads out of the project, whether a pattern finds some there or none', async () => {
    const link = join(root, 'study', 'elsewhere');
    symlinkSync(join(root, '..', 'outside-of-washboard-test'), link);
    for (const pattern of ['elsewhere/*.csv', 'elsewhere/*.wav', 'else*/*.csv'])
      assert.match(sentence(await files.expand(pattern)), /lies outside the project folder/, pattern);
    rmSync(link);
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

  it('give the bytes that were hashed, or say that they changed', async () => {
    const path = join(root, 'study', 'raw', 'long.csv');
    const bytes = Buffer.alloc(2_500_000, '1,2\n');
    writeFileSync(path, bytes);
    const identity = await files.identify('raw/long.csv');
    const { mtime } = statSync(path);
    const source = await files.open('raw/long.csv', identity);
    assert.ok(bytes.subarray(1_000_001, 2_400_000).equals(await source.read(1_000_001, 1_399_999)));
    assert.ok(bytes.subarray(2_400_000).equals(await source.read(2_400_000, 200_000)));
    assert.equal(source.fault?.(), undefined);
    // One byte, and the time put back: the size and the time tell nothing.
    bytes[1_700_000] = 0x37;
    writeFileSync(path, bytes);
    utimesSync(path, mtime, mtime);
    assert.equal((await source.read(0, 1000)).length, 1000, 'a block that is as it was');
    assert.equal((await source.read(1_600_000, 1000)).length, 0);
    assert.deepEqual(source.fault?.(), { kind: 'changed' });
    assert.notEqual((await files.identify('raw/long.csv')).sha256, identity.sha256, 'it is hashed anew');
    const late = await read(await files.open('raw/long.csv', identity));
    assert.ok(!late.ok);
    assert.match(late.failure.message, /^raw\/long\.csv: the file changed while it was read/);
  });

  it('say in a sentence what the system refuses', async () => {
    const gone = await read(await files.open('raw/gone.csv'));
    assert.ok(!gone.ok);
    assert.equal(
      gone.failure.message,
      'raw/gone.csv: the file was found, but is not there when it is read (ENOENT): it was moved meanwhile, or its name holds a backslash, which stands for a folder here; see where it is, and rename it.',
    );
  });
});
