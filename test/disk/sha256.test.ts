import { strict as assert } from 'node:assert';
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { digestAlone, hashOf } from '../../src/disk/sha256.ts';

const expected = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');

describe('SHA-256 without a library', () => {
  it('is that of the system for texts and bytes of any length', async () => {
    for (let length = 0; length < 200; length++) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 37 + length) & 255);
      assert.equal(digestAlone(bytes), expected(bytes), `${length} bytes`);
      assert.equal(await hashOf(bytes), expected(bytes));
    }
    fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => digestAlone(text) === expected(text)));
  });

  it('is that of a part of a larger buffer', async () => {
    const part = new Uint8Array(300).fill(7).subarray(100, 250);
    assert.equal(digestAlone(part), expected(part));
    assert.equal(await hashOf(part), expected(part));
  });

  it('needs no library of the host either where that has none', async () => {
    const own = Object.getOwnPropertyDescriptor(globalThis, 'crypto')!;
    Object.defineProperty(globalThis, 'crypto', { value: {}, configurable: true });
    try {
      assert.equal(await hashOf(new Uint8Array([1, 2, 3])), expected(new Uint8Array([1, 2, 3])));
    } finally {
      Object.defineProperty(globalThis, 'crypto', own);
    }
  });
});
