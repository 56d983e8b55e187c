import { strict as assert } from 'node:assert';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
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
});
