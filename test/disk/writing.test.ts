import { strict as assert } from 'node:assert';
import {
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeFolder, writeProduct, type Make, type Put, type WriteOptions } from '../../src/disk/writing.ts';

describe('what a command writes', () => {
  let folder: string;
  const at = (name: string): string => join(folder, name);
  const free: WriteOptions = { force: false, kept: [] };
  const page = (name: string, text = 'ours: new'): Parameters<typeof writeProduct>[0] => ({
    path: at(name),
    content: text,
    kind: 'report page',
    isOurs: (found) => found.toString().startsWith('ours'),
  });
  const said = (...given: Parameters<typeof writeProduct>): string => {
    const written = writeProduct(...given);
    return written.ok ? assert.fail('it was written') : written.failure.message;
  };

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'washboard-writing-'));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it('takes the place of its own earlier product, and of nothing else', () => {
    assert.ok(writeProduct(page('a.html', 'ours: old'), free).ok);
    assert.ok(writeProduct(page('a.html'), free).ok);
    assert.equal(readFileSync(at('a.html'), 'utf8'), 'ours: new');
    writeFileSync(at('b.csv'), 't,x\n');
    assert.match(said(page('b.csv'), free), /is there already and is no report page that Washboard made.*--force\.$/);
    assert.equal(readFileSync(at('b.csv'), 'utf8'), 't,x\n');
    assert.ok(writeProduct(page('b.csv'), { ...free, force: true }).ok);
  });

  it('goes where a link leads, which stays', () => {
    writeFileSync(at('far.html'), 'ours: old');
    symlinkSync(at('far.html'), at('near.html'));
    assert.ok(writeProduct(page('near.html'), free).ok);
    assert.ok(lstatSync(at('near.html')).isSymbolicLink());
    assert.equal(readFileSync(at('far.html'), 'utf8'), 'ours: new');
  });

  it('never takes the place of the notebook or a raw file, by whatever name', () => {
    writeFileSync(at('raw.csv'), 't,x\n');
    linkSync(at('raw.csv'), at('hard.csv'));
    symlinkSync(at('raw.csv'), at('soft.csv'));
    const kept = [{ path: at('raw.csv'), as: 'source' as const }];
    for (const name of ['raw.csv', 'hard.csv', 'soft.csv'])
      for (const force of [false, true])
        assert.match(said(page(name), { force, kept }), /is one of the raw files, which is never written over/);
    assert.equal(readFileSync(at('raw.csv'), 'utf8'), 't,x\n');
  });

  it('gives way of a record only to --force', () => {
    writeFileSync(at('a.record.json'), '{}');
    const kept = [{ path: at('a.record.json'), as: 'record' as const }];
    assert.match(said(page('a.record.json'), { force: false, kept }), /is the notebook's record/);
    assert.ok(writeProduct(page('a.record.json'), { force: true, kept }).ok);
  });

  it('never takes the place of any notebook, by whatever name, nor of what force is not for', () => {
    writeFileSync(at('other.washboard.md'), '# Another study');
    symlinkSync(at('other.washboard.md'), at('page.html'));
    for (const name of ['other.washboard.md', 'page.html'])
      assert.match(said(page(name), { ...free, force: true }), /is a notebook, which is never written over/);
    writeFileSync(at('a.csv'), 't,x\n');
    const product = { ...page('a.csv'), isForced: (found: Buffer) => !found.includes('t,x') };
    assert.match(said(product, { ...free, force: true }), /even --force writes a report page over: name another file/);
    assert.equal(readFileSync(at('a.csv'), 'utf8'), 't,x\n');
    assert.ok(writeProduct({ ...product, isForced: () => true }, { ...free, force: true }).ok);
  });

  it('leaves the old file whole when the disk is full', () => {
    writeFileSync(at('a.html'), 'ours: old');
    const full: Put = (handle, text) => {
      writeFileSync(handle, text.slice(0, 3));
      throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC', syscall: 'write' });
    };
    assert.match(said(page('a.html'), free, full), /the disk is full/);
    assert.equal(readFileSync(at('a.html'), 'utf8'), 'ours: old');
    assert.deepEqual(readdirSync(folder), ['a.html'], 'nothing is left beside it');
  });

  it('says in one sentence what stands in its way', () => {
    mkdirSync(at('folder'));
    writeFileSync(at('file'), '');
    const cases: readonly [string, RegExp][] = [
      ['missing/a.html', /its folder does not exist; make the folder first\.$/],
      ['file/a.html', /: a file stands where its folder should be; name a place in a folder\.$/],
      ['folder', /a folder or a file stands in its place/],
      ['x'.repeat(300), /its name is too long/],
    ];
    for (const [name, why] of cases) assert.match(said(page(name), { ...free, force: true }), why, name);
  });

  it('says of a folder that can not be made what the disk says, where Node calls it missing', () => {
    const readOnly: Make = (_, options) => {
      throw Object.assign(new Error('no'), {
        errno: -2,
        syscall: 'mkdir',
        code: options?.recursive ? 'ENOENT' : 'EROFS',
      });
    };
    const made = makeFolder(at('a/b'), readOnly);
    assert.ok(!made.ok);
    assert.match(made.failure.message, /the place or the file is read-only/);
    assert.deepEqual(readdirSync(folder), []);
  });

  it('throws a fault of the program on', () => {
    const broken: Put = () => {
      throw new TypeError('a bug');
    };
    assert.throws(() => writeProduct(page('a.html'), free, broken), TypeError);
  });
});
