import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { putInPlace } from '../../src/disk/putInPlace.ts';

describe('a file put in its place', () => {
  let folder: string;
  beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'washboard-place-'))));
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('is whole, for its user alone, in a folder that is made, and takes the place of one before', async () => {
    const path = join(folder, 'a', 'b.json');
    await putInPlace(path, 'first');
    await putInPlace(path, new Uint8Array([115, 111]));
    assert.equal(readFileSync(path, 'utf8'), 'so');
    assert.equal(statSync(path).mode & 0o777, 0o600);
    assert.deepEqual(readdirSync(join(folder, 'a')), ['b.json']);
  });

  it('leaves nothing beside a place that is taken, and says why', async () => {
    mkdirSync(join(folder, 'taken', 'inside'), { recursive: true });
    await assert.rejects(putInPlace(join(folder, 'taken'), 'text'), { syscall: 'rename' });
    assert.deepEqual(readdirSync(folder), ['taken']);
  });

  it('is there though its folder is removed again and again while it is written', async () => {
    const path = join(folder, 'kept', 'packs', 'one');
    for (let turn = 0; turn < 50; turn++) {
      const writing = putInPlace(path, 'whole');
      for (let waited = 0; waited < turn % 7; waited++) await setImmediate();
      // The file beside its place may come while the folder is being emptied.
      await rm(join(folder, 'kept'), { recursive: true, force: true, maxRetries: 5, retryDelay: 1 });
      await writing;
      rmSync(path, { force: true });
    }
    await putInPlace(path, 'whole');
    assert.deepEqual(readdirSync(join(folder, 'kept', 'packs')), ['one']);
  });

  it('is refused as such by a file where its folder would be, and by a disk that can only be read', function () {
    this.timeout(60_000);
    const program = fileURLToPath(new URL('../../src/disk/putInPlace.ts', import.meta.url));
    writeFileSync(
      join(folder, 'try.mts'),
      `import { putInPlace } from ${JSON.stringify(program)};
await putInPlace(process.argv[2], 'text').catch(({ code }) => console.log(code));`,
    );
    const tried = (path: string): string => `${process.execPath} --import tsx ${join(folder, 'try.mts')} ${path}`;
    const said = (command: string): string =>
      spawnSync('unshare', ['-rm', 'sh', '-c', command], {
        encoding: 'utf8',
        cwd: fileURLToPath(new URL('../..', import.meta.url)),
      }).stdout;
    mkdirSync(join(folder, 'disk'));
    const mounted = `mount -t tmpfs -o ro none ${join(folder, 'disk')}`;
    // Only some systems let anybody mount.
    if (said(`${mounted} && echo yes`) !== 'yes\n') return this.skip();
    assert.equal(said(`${mounted} && ${tried(join(folder, 'disk', 'some', 'where', 'a.json'))}`), 'EROFS\n');
    assert.equal(said(tried(join(folder, 'try.mts', 'a.json'))), 'ENOTDIR\n');
  });
});
