import { strict as assert } from 'node:assert';
import { areAscii, decoderFor, isBinary, sniffEncoding } from '../../src/readers/encoding.ts';
import { ScanVectors } from '../../src/readers/text/scanVectors.ts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const utf16 = (text: string, big = false): Uint8Array => {
  const bytes = new Uint8Array(2 * text.length);
  const view = new DataView(bytes.buffer);
  [...text].forEach((letter, i) => {
    view.setUint16(2 * i, letter.charCodeAt(0), !big);
  });
  return bytes;
};
const bytes = (...parts: readonly (Uint8Array | readonly number[])[]): Uint8Array =>
  Uint8Array.from(parts.flatMap((part) => [...part]));

describe('the encoding of a text', () => {
  it('is told by its byte order mark, whose length goes with it', () => {
    const rows = utf8('t,z\n0,1\n');
    assert.deepEqual(sniffEncoding(bytes([0xef, 0xbb, 0xbf], rows)), { encoding: 'UTF-8 with BOM', mark: 3 });
    assert.deepEqual(sniffEncoding(bytes([0xff, 0xfe], utf16('t,z'))), { encoding: 'UTF-16LE', mark: 2 });
    assert.deepEqual(sniffEncoding(bytes([0xfe, 0xff], utf16('t,z', true))), { encoding: 'UTF-16BE', mark: 2 });
  });

  it('takes no part of a mark for one', () => {
    for (const start of [
      [0xef, 0xbb, 0x41],
      [0xef, 0x41, 0xbf],
      [0x41, 0xbb, 0xbf],
    ])
      assert.deepEqual(sniffEncoding(bytes(start, utf8('t,z'))), { encoding: 'Latin-1', mark: 0 });
    assert.equal(sniffEncoding(bytes([0xff, 0x41], utf8('t,z'))).encoding, 'Latin-1');
    assert.equal(sniffEncoding(bytes([0xfe, 0x41], utf8('t,z'))).encoding, 'Latin-1');
  });

  it('is told without a mark by which byte of each pair is zero', () => {
    assert.deepEqual(sniffEncoding(utf16('time,z (g)\n0,1\n')), { encoding: 'UTF-16LE', mark: 0 });
    assert.deepEqual(sniffEncoding(utf16('time,z (g)\n0,1\n', true)), { encoding: 'UTF-16BE', mark: 0 });
    // Three letters are too few to tell, and so are zeros in one of three pairs.
    assert.equal(sniffEncoding(utf16('t,z')).encoding, 'UTF-8');
    assert.equal(sniffEncoding(utf16('t,z\n')).encoding, 'UTF-16LE');
    assert.equal(sniffEncoding(bytes(utf8('0123456789'.repeat(4)), utf16('0123456789'))).encoding, 'UTF-8');
  });

  it('is told so where more than 80 of 100 signs have a zero there, and less than 5 one in the other byte', () => {
    const letters = (ascii: number, other: string): string => 'a'.repeat(ascii) + other.repeat(100 - ascii);
    for (const [big, encoding] of [
      [false, 'UTF-16LE'],
      [true, 'UTF-16BE'],
    ] as const) {
      assert.equal(sniffEncoding(utf16('time', big)).encoding, encoding);
      assert.equal(sniffEncoding(utf16(letters(81, '\u0141'), big)).encoding, encoding);
      assert.equal(sniffEncoding(utf16(letters(80, '\u0141'), big)).encoding, 'UTF-8');
      assert.equal(sniffEncoding(utf16(letters(96, '\u0100'), big)).encoding, encoding);
      assert.equal(sniffEncoding(utf16(letters(95, '\u0100'), big)).encoding, 'UTF-8');
    }
  });

  it('is UTF-8 where all bytes are, a character cut off at the end included, else Latin-1', () => {
    assert.equal(sniffEncoding(utf8('Beschleunigung ü m/s²')).encoding, 'UTF-8');
    assert.equal(sniffEncoding(utf8('m/s²').subarray(0, -1)).encoding, 'UTF-8');
    assert.equal(sniffEncoding(bytes(utf8('m/s'), [0xb2], utf8('\n0,1'))).encoding, 'Latin-1');
  });

  it('finds a lone high byte wherever it stands and however the bytes are aligned', () => {
    const plain = utf8('t,z\n0,1\n0,2\n0,3\n');
    for (let offset = 0; offset < 4; offset++) {
      for (let at = 0; at < plain.length; at++) {
        const whole = new Uint8Array(offset + plain.length);
        whole.set(plain, offset);
        assert.equal(sniffEncoding(whole.subarray(offset)).encoding, 'UTF-8');
        whole[offset + at] = 0xb2;
        assert.equal(sniffEncoding(whole.subarray(offset)).encoding, 'Latin-1', `${offset} ${at}`);
      }
    }
  });

  it('finds it by vectors as by the plain loop, in a long text as well', () => {
    for (const length of [0, 1, 31, 32, 33, 65_535, 65_536, 65_537, 200_001]) {
      const bytes = new Uint8Array(length).fill(48);
      assert.deepEqual([ScanVectors.areAscii(bytes), areAscii(bytes)], [true, true], String(length));
      for (const at of [0, 1, 30, 31, 32, 65_534, 65_535, 65_536, length - 1].filter(
        (one) => one >= 0 && one < length,
      )) {
        bytes[at] = 0x80;
        assert.deepEqual([ScanVectors.areAscii(bytes), areAscii(bytes)], [false, false], `${at} of ${length}`);
        bytes[at] = 48;
      }
      // What the one before left behind is no part of the next.
      assert.equal(ScanVectors.areAscii(bytes.subarray(0, length >> 1)), true, String(length));
    }
  });

  it('decodes Latin-1 as such, and everything else as UTF-8', () => {
    assert.equal(decoderFor('Latin-1').decode(Uint8Array.of(0xb2)), '²');
    for (const encoding of ['UTF-8', 'UTF-8 with BOM', 'UTF-16LE', 'UTF-16BE'] as const)
      assert.equal(decoderFor(encoding).decode(utf8('m/s²')), 'm/s²');
  });
});

describe('a head that is no text', () => {
  const row = '0.01,0.02,1.00\n';

  it('has more than two, and more than 2 in 100, signs that no text has', () => {
    const odd = (count: number, rows: number): Uint8Array =>
      bytes(
        utf8(row.repeat(rows)),
        Array.from({ length: count }, () => 1),
      );
    assert.equal(isBinary(odd(2, 0), 'UTF-8'), false);
    assert.equal(isBinary(odd(3, 0), 'UTF-8'), true);
    assert.equal(isBinary(odd(3, 9), 'UTF-8'), true);
    assert.equal(isBinary(odd(3, 10), 'UTF-8'), false);
  });

  it('is a text with tabs, line ends, page ends and the marks of old systems', () => {
    assert.equal(isBinary(Uint8Array.of(9, 10, 12, 13, 26, 27, 9, 10, 12, 13, 26, 27), 'UTF-8'), false);
    for (const sign of [9, 10, 12, 13, 26, 27])
      assert.equal(isBinary(Uint8Array.of(sign, sign, sign), 'UTF-8'), false, String(sign));
    for (const sign of [8, 11, 14, 25, 28, 31]) assert.equal(isBinary(Uint8Array.of(sign, sign, sign), 'UTF-8'), true);
    assert.equal(isBinary(utf8('   '), 'UTF-8'), false);
  });

  it('is a text however many zeros a loss of power left at its end, or a block of them within', () => {
    assert.equal(isBinary(bytes(utf8(row), new Uint8Array(4000)), 'UTF-8'), false);
    assert.equal(isBinary(bytes(utf8(row), new Uint8Array(row.length), utf8('\n')), 'UTF-8'), false);
    assert.equal(isBinary(bytes(utf8(row), new Uint8Array(row.length + 2), utf8('\n')), 'UTF-8'), true);
  });

  it('is no text where there is nothing but zeros, and none is missing in an empty one', () => {
    assert.equal(isBinary(new Uint8Array(10), 'UTF-8'), true);
    assert.equal(isBinary(new Uint8Array(0), 'UTF-8'), false);
  });

  it('is never looked for in texts of two bytes a sign', () => {
    assert.equal(isBinary(bytes(utf16('t,z'), [1, 1, 1, 1]), 'UTF-16LE'), false);
    assert.equal(isBinary(bytes(utf16('t,z', true), [1, 1, 1, 1]), 'UTF-16BE'), false);
  });
});
