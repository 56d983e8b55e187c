import { strict as assert } from 'node:assert';
import { crc32 as reference } from 'node:zlib';
import fc from 'fast-check';
import { crc32 } from '../../src/numbers/crc32.ts';

describe('crc32', () => {
  it('is that of zlib, whatever the bytes', () => {
    // The check value that catalogues of such sums give.
    assert.equal(crc32(new TextEncoder().encode('123456789')), 0xcbf43926);
    fc.assert(fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => crc32(bytes) === reference(bytes)));
  });
});
