import { strict as assert } from 'node:assert';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PackFolder } from '../../src/disk/packFolder.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('a folder of packs', () => {
  let folder: string;
  beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'washboard-packs-'))));
  afterEach(() => rmSync(folder, { recursive: true }));

  const told = async (packs: PackFolder, name: string): Promise<string | undefined> => {
    const bytes = await packs.get(name);
    return bytes === undefined ? undefined : Buffer.from(bytes).toString();
  };

  /** Names that differ in their last sign alone. */
  const named = (last: string): string => `${'5'.repeat(63)}${last}`;

  it('tells entries apart whose names begin alike, in one pack or in several', async () => {
    const packs = new PackFolder(folder);
    await packs.get(named('0'));
    await packs.put(new Map([[named('1'), [bytesOf('one')]]]));
    await packs.put(new Map([[named('2'), [bytesOf('two')]]]));
    await packs.put(new Map(['3', '4'].map((last) => [named(last), [bytesOf(last)]] as const)));
    for (const one of [packs, new PackFolder(folder)]) {
      assert.equal(await told(one, named('1')), 'one');
      assert.equal(await told(one, named('2')), 'two');
      assert.equal(await told(one, named('3')), '3');
      assert.equal(await told(one, named('4')), '4');
      assert.equal(await told(one, named('6')), undefined);
      assert.equal(await told(one, 'a'.repeat(64)), undefined);
    }
  });

  it('tells of each entry the newest, whichever pack is met first', async () => {
    const packs = new PackFolder(folder);
    await packs.get(named('0'));
    for (const text of ['old', 'new']) await packs.put(new Map([[named('1'), [bytesOf(text)]]]));
    for (const one of [packs, new PackFolder(folder)]) assert.equal(await told(one, named('1')), 'new');
  });

  it('tells the older one where the newest was damaged when its pack was written into another', async () => {
    const packs = new PackFolder(folder);
    await packs.get(named('0'));
    // A large one, which stays as it is.
    await packs.put(new Map([[named('1'), [Buffer.alloc(300_000, 'o')]]]));
    await packs.put(new Map([[named('1'), [bytesOf('newer')]]]));
    const [newest] = readdirSync(folder).sort().reverse();
    const bytes = readFileSync(join(folder, newest));
    bytes[bytes.length - 1] ^= 1;
    writeFileSync(join(folder, newest), bytes);
    for (let k = 0; k < 40; k++) await packs.put(new Map([[`${k}`.padStart(64, '0'), [bytesOf(`${k}`)]]]));
    assert.ok(readdirSync(folder).length < 20, 'the small ones are one by now');
    assert.equal((await packs.get(named('1')))?.length, 300_000);
    assert.equal(await told(packs, '7'.padStart(64, '0')), '7');
  });
});
