import { strict as assert } from 'node:assert';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { digest } from '../../src/disk/bytes.ts';
import { Identities, stampOf, type FileStat } from '../../src/disk/identities.ts';
import { KeptStore } from '../../src/disk/keptStore.ts';

/** The samples of a logger without a clock, as a file system tells of them that notes no changes. */
const onCard: FileStat = { size: 5n, mtimeNs: 315_532_800_000_000_000n, ctimeNs: 315_532_800_000_000_000n, ino: 3n };
/** The same on one that does. */
const onDisk: FileStat = { ...onCard, ctimeNs: 1_763_000_000_123_456_789n };

describe('hashes of files', () => {
  let folder: string;
  let path: string;
  const store = (): KeptStore => new KeptStore(join(folder, 'kept'), '0123456789abcdef01234567');

  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'identities-'));
    path = join(folder, 'run1.csv');
  });
  beforeEach(() => rmSync(join(folder, 'kept'), { recursive: true, force: true }));
  after(() => rmSync(folder, { recursive: true }));

  /** What a second start of the program takes a file for that holds other samples than at the first, by stamps that are alike. */
  async function afterExchange(stat: FileStat): Promise<string> {
    const [first, second] = ['1,2,3', '4,5,6'];
    const kept = store();
    writeFileSync(path, first);
    new Identities(kept).learn(path, stampOf(stat), { bytes: 5, sha256: digest(first) });
    await kept.settled();
    writeFileSync(path, second);
    const { sha256 } = await new Identities(store(), () => Promise.resolve(stat)).identify(path);
    return { [digest(first)]: 'first', [digest(second)]: 'second' }[sha256] ?? sha256;
  }

  it('are taken from one start to the next by stamps that no change leaves alike', async () => {
    assert.equal(await afterExchange(onDisk), 'first', 'the file is read though its stamp tells that it is as it was');
  });

  it('are taken anew at each start where the file system notes no changes', async () => {
    assert.equal(await afterExchange(onCard), 'second');
    const inTens: FileStat = { ...onCard, mtimeNs: 1_763_000_000_120_000_000n, ctimeNs: 1_763_000_000_120_000_000n };
    assert.equal(await afterExchange(inTens), 'second', 'exFAT counts hundredths of a second');
  });

  it('are believed for a moment in one session where a stamp may miss a change, and then taken anew', async () => {
    writeFileSync(path, '1,2,3');
    const [card, disk] = [onCard, onDisk].map((stat) => new Identities(undefined, () => Promise.resolve(stat)));
    const first = await card.identify(path);
    assert.deepEqual(await disk.identify(path), first);
    writeFileSync(path, '4,5,6');
    assert.deepEqual(await card.known(path), first, 'a drag asks several times a second');
    await setTimeout(2100);
    assert.equal(await card.known(path), undefined);
    assert.equal((await card.identify(path)).sha256, digest('4,5,6'));
    assert.deepEqual(await disk.known(path), first);
  }).timeout(10_000);

  it('come in blocks of a file that was only learned of, too', async () => {
    writeFileSync(path, '1,2,3');
    const identities = new Identities();
    identities.learn(path, stampOf(onDisk), { bytes: 5, sha256: digest('1,2,3') });
    const wanted = { bytes: 5, sha256: digest('1,2,3'), blocks: [digest('1,2,3')] };
    assert.deepEqual(await identities.inBlocks(path), wanted);
    assert.deepEqual(await identities.inBlocks(path), wanted);
    assert.equal(await identities.inBlocks(join(folder, 'gone.csv')), undefined);
  });
});
