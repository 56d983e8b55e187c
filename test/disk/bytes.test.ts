import { strict as assert } from 'node:assert';
import { execFileSync, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hashFile } from '../../src/disk/bytes.ts';

const block = 1 << 20;
const hex = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

describe('the hash of a file', () => {
  let folder: string;
  before(() => (folder = mkdtempSync(join(tmpdir(), 'washboard-bytes-'))));
  after(() => rmSync(folder, { recursive: true }));

  const content = Buffer.from(Float64Array.from({ length: 300_000 }, (_, k) => (k * 37) % 1009).buffer);
  const wanted = {
    bytes: content.length,
    sha256: hex(content),
    blocks: [content.subarray(0, block), content.subarray(block, 2 * block), content.subarray(2 * block)].map(hex),
  };

  it('is of the whole and of each block', async () => {
    const path = join(folder, 'whole');
    writeFileSync(path, content);
    assert.deepEqual(await hashFile(path), wanted);
    writeFileSync(path, content.subarray(0, block));
    assert.deepEqual((await hashFile(path)).blocks, [wanted.blocks[0]], 'nothing is left behind a whole block');
    writeFileSync(path, '');
    assert.deepEqual(await hashFile(path), { bytes: 0, sha256: hex(Buffer.alloc(0)), blocks: [] });
  });

  it('is the same however small the pieces are in which it comes', async function () {
    // A pipe gives at most as many bytes at a time as it holds, as a slow network may.
    if (process.platform === 'win32') return this.skip();
    const [path, pipe] = ['whole', 'pipe'].map((name) => join(folder, name));
    writeFileSync(path, content);
    execFileSync('mkfifo', [pipe]);
    const writer = spawn('sh', ['-c', `cat "${path}" > "${pipe}"`]);
    const [hashed] = await Promise.all([hashFile(pipe), once(writer, 'exit')]);
    assert.deepEqual(hashed, wanted);
  });
});
