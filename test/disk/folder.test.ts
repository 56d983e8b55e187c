import { strict as assert } from 'node:assert';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { listName, writeFolder, type MadeFolder } from '../../src/disk/folder.ts';
import type { Put } from '../../src/disk/writing.ts';

describe('a folder of files that a command makes', () => {
  let path: string;
  let folder: MadeFolder;
  const free = { force: false, kept: [] };
  const file = (name: string, content = name): { file: string; content: string } => ({ file: name, content });
  const read = (name: string): string => readFileSync(join(path, name), 'utf8');
  const write = (...given: Parameters<typeof writeFolder>): readonly string[] => {
    const written = writeFolder(...given);
    return written.ok ? written.value.stale : assert.fail(written.failure.message);
  };

  beforeEach(() => {
    path = mkdtempSync(join(tmpdir(), 'washboard-folder-'));
    folder = { path, notebook: 'ride.washboard.md', command: 'tables', kind: 'table' };
  });
  afterEach(() => rmSync(path, { recursive: true }));

  it('is written again over what the same command made of the same notebook', () => {
    assert.deepEqual(write(folder, [file('a.csv', 'old')], free), []);
    assert.deepEqual(write(folder, [file('a.csv', 'new')], free), []);
    assert.equal(read('a.csv'), 'new');
  });

  it('keeps a file that somebody changed or that another notebook made, and all of them by force only', () => {
    write(folder, [file('a.csv'), file('b.csv')], free);
    writeFileSync(join(path, 'a.csv'), 'mine');
    assert.ok(!writeFolder(folder, [file('a.csv', 'new')], free).ok);
    assert.ok(!writeFolder({ ...folder, notebook: 'other.md' }, [file('b.csv', 'other')], free).ok);
    assert.deepEqual([read('a.csv'), read('b.csv')], ['mine', 'b.csv']);
    write(folder, [file('a.csv', 'new')], { ...free, force: true });
    assert.equal(read('a.csv'), 'new');
  });

  it('names what an earlier run left until it is gone, and no file of another command', () => {
    write(folder, [file('a.csv'), file('b.csv')], free);
    write({ ...folder, command: 'figures' }, [file('f.svg')], free);
    assert.deepEqual(write(folder, [file('a.csv')], free), ['b.csv']);
    assert.deepEqual(write(folder, [file('a.csv')], free), ['b.csv']);
    assert.ok(existsSync(join(path, 'b.csv')));
    rmSync(join(path, 'b.csv'));
    assert.deepEqual(write(folder, [file('a.csv')], free), []);
  });

  it('knows what was written before a refusal', () => {
    writeFileSync(join(path, 'b.csv'), 'mine');
    assert.ok(!writeFolder(folder, [file('a.csv', 'old'), file('b.csv')], free).ok);
    rmSync(join(path, 'b.csv'));
    write(folder, [file('a.csv', 'new'), file('b.csv')], free);
    assert.equal(read('a.csv'), 'new');
  });

  it('writes all or none: where the disk is full at the third file, what was there stays, and nothing lies beside it', () => {
    write(folder, [file('a.csv', 'old'), file('b.csv', 'old')], free);
    const before = readdirSync(path).map(read);
    let puts = 0;
    const full: Put = (handle, content) => {
      if (++puts === 3) throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC', syscall: 'write' });
      writeFileSync(handle, content);
    };
    const written = writeFolder(
      folder,
      ['a.csv', 'b.csv', 'c.csv'].map((name) => file(name, 'new')),
      free,
      full,
    );
    assert.ok(!written.ok);
    assert.match(written.failure.message, /c\.csv can't be written: the disk is full/);
    assert.deepEqual(readdirSync(path).map(read), before);
    const fresh = { ...folder, path: join(path, 'fresh') };
    puts = 0;
    assert.ok(
      !writeFolder(
        fresh,
        ['a.csv', 'b.csv', 'c.csv'].map((name) => file(name, 'new')),
        free,
        full,
      ).ok,
    );
    assert.ok(!existsSync(fresh.path));
  });

  it('leaves nothing of a folder in which nothing could be written', () => {
    const within = { ...folder, path: join(path, 'made', 'for', 'it') };
    assert.ok(!writeFolder(within, [file('x'.repeat(300))], free).ok);
    assert.deepEqual(readdirSync(path), []);
    // However the folder is named.
    const named = { ...folder, path: relative('.', join(path, 'made', 'too')) };
    assert.ok(!writeFolder(named, [file('x'.repeat(300))], free).ok);
    assert.deepEqual(readdirSync(path), []);
    assert.ok(!writeFolder(folder, [file('x'.repeat(300))], free).ok);
    assert.ok(existsSync(path), 'a folder that was there stays');
  });

  it('writes over no list that is none, and believes none that leads elsewhere', () => {
    writeFileSync(join(path, listName), '{"washboard": 2}');
    assert.ok(!writeFolder(folder, [file('a.csv')], free).ok);
    const entry = { file: '../a.csv', notebook: folder.notebook, command: 'tables', sha256: '' };
    writeFileSync(join(path, listName), JSON.stringify({ washboard: 1, files: [entry] }));
    assert.deepEqual(write(folder, [], free), []);
  });
});
