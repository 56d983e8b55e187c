import { strict as assert } from 'node:assert';
import { createHash } from 'node:crypto';
import { editorHost } from '../../src/disk/editorHost.ts';
import { wholeFiles } from '../../src/disk/wholeFiles.ts';
import { Engine } from '../../src/engine/engine.ts';
import type { Result } from '../../src/result/result.ts';
import { MemoryFiles } from './memoryFiles.ts';

const sentence = (list: Result<readonly string[]>): string =>
  list.ok ? assert.fail(`found ${list.value.join(', ')}`) : list.failure.message;
const paths = (list: Result<readonly string[]>): readonly string[] =>
  list.ok ? list.value : assert.fail(list.failure.message);

const watch = { cancelled: () => false, progress: () => undefined };
const rows = (gain: number): string =>
  `t (s),z (g)\n${Array.from({ length: 400 }, (_, n) => `${(n / 100).toFixed(2)},${(gain * Math.sin(n)).toFixed(4)}`).join('\n')}\n`;

describe('the files of a project in a file system of the editor', () => {
  let disk: MemoryFiles;
  beforeEach(() => {
    disk = new MemoryFiles();
    for (const name of ['run 10.csv', 'run 2.csv', '.run 3.csv', 'notes.txt'])
      disk.write(`/home/study/raw/${name}`, name);
    disk.write('/home/shared.csv', 'shared');
    disk.write('/elsewhere/secret.csv', 'secret');
    disk.write('/homely/secret.csv', 'secret');
  });
  const files = () => wholeFiles(disk, '/home/study', '/home');

  it('come in natural order, without hidden ones, from above the notebook too', async () => {
    assert.deepEqual(paths(await files().expand('raw/run*.csv')), ['raw/run 2.csv', 'raw/run 10.csv']);
    assert.deepEqual(paths(await files().expand('r?w/*.txt')), ['raw/notes.txt']);
    assert.deepEqual(paths(await files().expand('../shared.csv')), ['../shared.csv']);
    assert.deepEqual(paths(await files().expand('raw/../../shared.*')), ['raw/../../shared.csv']);
  });

  it('are refused outside the project, however they are named', async () => {
    for (const path of [
      '../../elsewhere/secret.csv',
      '../../homely/secret.csv',
      '../../elsewhere/*.csv',
      '/elsewhere/secret.csv',
      'raw/../../../elsewhere/secret.csv',
      '../../home/../elsewhere/secret.csv',
      'memfs://elsewhere/secret.csv',
      'C:\\secret.csv',
      '..\\..\\elsewhere\\secret.csv',
    ])
      assert.match(sentence(await files().expand(path)), /absolute path|is an address|lies outside/, path);
    assert.deepEqual(disk.reads, []);
  });

  it('are refused where a link is on the way, for nobody knows where that leads', async () => {
    disk.links.add('/home/study/raw');
    for (const path of ['raw/notes.txt', 'raw/*.csv', 'r?w/notes.txt'])
      assert.match(sentence(await files().expand(path)), /does not tell where it leads/, path);
    disk.links.clear();
    disk.links.add('/home/study/raw/run 2.csv');
    assert.match(sentence(await files().expand('raw/*.csv')), /"raw\/run 2\.csv" is a link/);
    assert.deepEqual(paths(await files().expand('raw/run 1*.csv')), ['raw/run 10.csv']);
  });

  it('may lie in a project whose own folder is reached by a link', async () => {
    disk.links.add('/home');
    assert.deepEqual(paths(await files().expand('raw/notes.txt')), ['raw/notes.txt']);
  });

  it('say what stands there under nearly the same name', async () => {
    assert.match(sentence(await files().expand('raw/note.txt')), /did you mean "raw\/notes\.txt"/);
    assert.match(sentence(await files().expand('row/notes.txt')), /its folder "row\/" does not exist/);
    assert.match(sentence(await files().expand('raw')), /is a folder/);
    assert.match(sentence(await files().expand('*.wav')), /in the notebook's folder study\./);
  });

  it('are hashed as a whole, once for as long as size and time hold', async () => {
    const ours = files();
    const identity = await ours.identify('raw/notes.txt');
    assert.deepEqual(identity, { bytes: 9, sha256: createHash('sha256').update('notes.txt').digest('hex') });
    await ours.identify('raw/notes.txt');
    assert.equal(disk.reads.length, 1);
    disk.write('/home/study/raw/notes.txt', 'other.txt');
    assert.notEqual((await ours.identify('raw/notes.txt')).sha256, identity.sha256);
  });

  it('are hashed anew each time where the file system tells no times', async () => {
    disk.write('/home/study/raw/notes.txt', 'notes.txt', 0);
    const ours = files();
    await ours.identify('raw/notes.txt');
    assert.equal(await ours.known!('raw/notes.txt'), undefined);
    disk.write('/home/study/raw/notes.txt', 'other.txt', 0);
    assert.equal((await ours.identify('raw/notes.txt')).sha256, createHash('sha256').update('other.txt').digest('hex'));
  });

  it('give no bytes but those that were hashed', async () => {
    const ours = files();
    const identity = await ours.identify('raw/notes.txt');
    disk.write('/home/study/raw/notes.txt', 'other.txt');
    const source = await ours.open('raw/notes.txt', identity);
    assert.equal((await source.read(0, 9)).length, 0);
    assert.deepEqual(source.fault?.(), { kind: 'changed' });
  });

  it('of 1 GiB and more are not read', async () => {
    const { stat } = disk;
    disk.stat = async (path) => {
      const found = await stat.call(disk, path);
      return found && { ...found, size: 2 ** 30 };
    };
    const source = await files().open('raw/notes.txt');
    assert.deepEqual(source.fault?.(), { kind: 'refused', system: 'EFBIG' });
    assert.deepEqual(disk.reads, []);
  });

  it('are read by a notebook, each once, and name a file that changed between', async () => {
    disk.write('/home/study/raw/a.csv', rows(1));
    disk.write('/home/study/raw/b.csv', rows(2));
    const engine = new Engine(editorHost(disk, '/home/study', '/home'));
    const cells = ['levels (load "raw/?.csv")'];
    const report = await engine.run({ cells, wanted: 'all' }, watch);
    assert.ok(report.ok, report.results[0].error?.message);
    assert.deepEqual(disk.reads, ['/home/study/raw/a.csv', '/home/study/raw/b.csv']);
    assert.deepEqual(
      report.sources.map(({ path }) => path),
      ['raw/a.csv', 'raw/b.csv'],
    );
    await engine.run({ cells, wanted: 'all' }, watch);
    assert.equal(disk.reads.length, 2);
  });
});
