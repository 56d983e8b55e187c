import { strict as assert } from 'node:assert';
import { limits, unfoldsTooFar } from '../../src/readers/limits.ts';
import { openFile, piecesOf, refusedBy, type OpenFile, type Pieces } from '../../src/readers/pieces.ts';
import type { ByteSource } from '../../src/readers/recording.ts';
import { asUtf8 } from '../../src/readers/utf16.ts';
import { source } from './memory.ts';

/** Pieces of these bytes, so many at a time. */
const piecesIn = (bytes: Uint8Array, most: number): Pieces => {
  const whole = source(bytes);
  return piecesOf({ ...whole, read: (at, length) => whole.read(at, Math.min(length, most)) });
};
async function all(pieces: Pieces): Promise<Uint8Array> {
  const taken: Uint8Array[] = [];
  for (let piece = await pieces.next(); piece; piece = await pieces.next()) taken.push(piece.slice());
  return new Uint8Array(Buffer.concat(taken));
}
const count = (length: number): Uint8Array => Uint8Array.from({ length }, (_, i) => i % 251);

describe('the pieces of a file', () => {
  it('are all of its bytes, with how far they are', async () => {
    const pieces = piecesIn(count(1000), 300);
    assert.equal(pieces.progress(), 0);
    assert.equal((await pieces.next())?.length, 300);
    assert.equal(pieces.progress(), 0.3);
    assert.equal((await all(pieces)).length, 700);
    assert.deepEqual([pieces.progress(), pieces.failure()], [1, undefined]);
    const asked: number[] = [];
    const large: ByteSource = {
      path: 'run.csv',
      size: 2 * limits.piece + 5,
      read: (_, length) => Promise.resolve(new Uint8Array((asked.push(length), length))),
    };
    await all(piecesOf(large));
    assert.deepEqual(asked, [limits.piece, limits.piece, 5]);
    // From its middle on they end where blocks of the whole do, which are read as a whole to be held to their hash.
    asked.length = 0;
    await all(piecesOf(large, 1000, 2 * limits.piece + 3));
    assert.deepEqual(asked, [limits.piece - 1000, limits.piece, 3]);
  });

  it('fail where the file ends before its size, or is not to be read', async () => {
    const short = piecesOf({ ...source('12345'), size: 9 });
    assert.equal((await all(short)).length, 5);
    const failure = short.failure();
    assert.match(failure?.failure.message ?? '', /^run\.csv: .*5 of 9 bytes/);
    assert.equal(await short.next(), undefined);
    const changed: ByteSource = { ...source('12345'), fault: () => ({ kind: 'changed' }) };
    assert.match(refusedBy(changed)?.failure.message ?? '', /changed while it was read/);
    assert.equal(await piecesOf(changed).next(), undefined);
    const locked: ByteSource = { ...source('12345'), fault: () => ({ kind: 'refused', system: 'EACCES' }) };
    assert.match(refusedBy(locked)?.failure.message ?? '', /refuses to read the file \(EACCES\)/);
    assert.equal(refusedBy(source('1')), undefined);
    assert.equal(refusedBy({ ...source('1'), fault: () => undefined }), undefined);
  });
});

describe('an open file', () => {
  const opened = async (bytes: Uint8Array, most = limits.piece): Promise<OpenFile> => {
    const file = await openFile('run.csv', bytes.length, piecesIn(bytes, most));
    assert.ok(file.ok);
    return file.value;
  };

  it('has its head at hand, and gives its bytes from any of the head on', async () => {
    for (const most of [7, 100, 5000]) {
      const file = await opened(count(1000), most);
      assert.deepEqual(file.head, count(1000));
      assert.deepEqual([file.isWhole, file.path, file.size], [true, 'run.csv', 1000]);
      assert.deepEqual(await all(file.from(990)), count(1000).subarray(990));
    }
    assert.deepEqual(await all((await opened(count(10))).from(0)), count(10));
    assert.deepEqual(await all((await opened(count(10))).from(10)), new Uint8Array(0));
  });

  it('takes no more than the head and what comes with it', async () => {
    const bytes = count(limits.head + 5000);
    const file = await opened(bytes, 4096);
    assert.equal(file.isWhole, false);
    assert.equal(file.head.length, limits.head + 4096);
    assert.equal(Buffer.compare(await all(file.from(0)), bytes), 0);
    const exact = await opened(count(limits.head), limits.head);
    assert.equal(exact.isWhole, true);
  });

  it('is refused with what its pieces fail with', async () => {
    const file = await openFile('run.csv', 9, piecesOf({ ...source('12345'), size: 9 }));
    assert.ok(!file.ok && file.failure.code === 'file-changed');
  });
});

describe('what is packed', () => {
  it('may unfold to two hundred times its size once past 64 MiB, and to 4 GiB', () => {
    const mega = 2 ** 20;
    assert.ok(!unfoldsTooFar(64 * mega, 1));
    assert.ok(unfoldsTooFar(64 * mega + 1, 1));
    assert.ok(!unfoldsTooFar(200 * mega, mega));
    assert.ok(unfoldsTooFar(200 * mega + 1, mega));
    assert.ok(!unfoldsTooFar(4096 * mega, 4096 * mega));
    assert.ok(unfoldsTooFar(4096 * mega + 1, 4096 * mega));
    assert.ok(unfoldsTooFar(64 * mega + 1, 0));
  });
});

describe('UTF-16', () => {
  const text = 'Zeit;x (m/s²)\r\n0,01;ä€😀\n';
  it('becomes UTF-8 in either order of bytes, wherever a piece ends', async () => {
    const little = new Uint8Array(Buffer.from(text, 'utf16le'));
    const big = new Uint8Array(Buffer.from(text, 'utf16le').swap16());
    for (const most of [1, 2, 3, 7, 1000]) {
      for (const [encoding, bytes] of [
        ['UTF-16LE', little],
        ['UTF-16BE', big],
      ] as const)
        assert.equal(new TextDecoder().decode(await all(asUtf8(encoding, piecesIn(bytes, most)))), text);
    }
  });
});
