import { strict as assert } from 'node:assert';
import { mkdtempSync, readdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { TextStore } from '../../src/disk/textStore.ts';

describe('the store of texts', () => {
  let parent: string;
  let folder: string;
  beforeEach(() => {
    parent = mkdtempSync(join(tmpdir(), 'store-'));
    folder = join(parent, 'kept');
  });
  afterEach(() => rmSync(parent, { recursive: true, force: true }));

  it('keeps a text, for the next one to ask too, until it is told to forget it', async () => {
    assert.equal(await new TextStore(folder).any(), false);
    await new TextStore(folder).put('a1', 'Ümlaut');
    const store = new TextStore(folder);
    assert.equal(await store.any(), true);
    assert.equal(await store.get('a1'), 'Ümlaut');
    assert.equal(await store.get('b2'), undefined);
    await store.forget('a1');
    assert.equal(await store.get('a1'), undefined);
    assert.equal(await store.any(), false);
    await store.forget('a1');
  });

  it('forgets what is damaged', async () => {
    const store = new TextStore(folder);
    await store.put('a1', 'x'.repeat(1000));
    writeFileSync(join(folder, 'a1.gz'), 'no packed text');
    assert.equal(await store.get('a1'), undefined);
    assert.deepEqual(readdirSync(folder), []);
  });

  it('lets those go that were asked for longest ago, once all together pass the limit', async () => {
    const noise = (seed: number): string =>
      Array.from({ length: 2000 }, (_, i) => String.fromCharCode(33 + ((i * 7919 * seed + ((i * i) % 97)) % 90))).join(
        '',
      );
    const store = new TextStore(folder);
    for (let k = 1; k <= 19; k++) await store.put(`k${k}`, noise(k));
    const each = statSync(join(folder, 'k1.gz')).size;
    for (let k = 1; k <= 19; k++) utimesSync(join(folder, `k${k}.gz`), k, k);
    await store.get('k1');
    const small = new TextStore(folder, 3 * each);
    await small.put('new', noise(20));
    const left = readdirSync(folder).reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
    assert.ok(left <= 3 * each, `${left} of ${3 * each}`);
    assert.equal(await small.get('k2'), undefined);
    assert.equal(await small.get('k1'), noise(1));
    assert.equal(await small.get('new'), noise(20));
  });

  it('keeps nothing where it may not write, and says nothing', async () => {
    writeFileSync(folder, 'a file in its place');
    const store = new TextStore(folder);
    await store.put('a1', 'x');
    assert.equal(await store.get('a1'), undefined);
  });

  it('takes no key out of its folder', async () => {
    await new TextStore(folder).put('../out', 'x');
    assert.deepEqual(readdirSync(parent), ['kept']);
  });
});
