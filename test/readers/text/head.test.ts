import { strict as assert } from 'node:assert';
import { limits } from '../../../src/readers/limits.ts';
import { byteOfLine, readHead, type TextHead } from '../../../src/readers/text/head.ts';
import type { OpenFile } from '../../../src/readers/pieces.ts';

const opened = (text: string, isWhole = true): OpenFile => {
  const head = new TextEncoder().encode(text);
  return { path: 'run.csv', size: head.length, head, isWhole, from: () => assert.fail(), failure: () => undefined };
};
const head = (
  text: string,
  { isWhole = true, start = 0, skip = 0, most = limits.head as number } = {},
): TextHead | string => {
  const read = readHead(opened(text, isWhole), start, new TextDecoder(), skip, most);
  return read.ok ? read.value : read.failure.message;
};
const lines = (...asked: Parameters<typeof head>): string[] | string => {
  const read = head(...asked);
  return typeof read === 'string' ? read : read.lines.map(({ text, line }) => `${line} ${text}`);
};

describe('the head of a text', () => {
  it('is its lines by whatever ends them, without zeros at its end', () => {
    for (const end of ['\n', '\r\n', '\r']) assert.deepEqual(lines(`a${end}b${end}`), ['1 a', '2 b']);
    assert.deepEqual(lines('a\nb'), ['1 a', '2 b']);
    assert.deepEqual(lines('a\nb\n\0\0\u001a\0'), ['1 a', '2 b']);
    assert.deepEqual(lines('a\n\nb\n'), ['1 a', '2 ', '3 b']);
  });

  it('leaves out a last line that goes on beyond it', () => {
    assert.deepEqual(lines('a\nb', { isWhole: false }), ['1 a']);
    assert.deepEqual(lines('a\nb\n', { isWhole: false }), ['1 a', '2 b']);
    assert.match(String(lines('a', { isWhole: false })), /^run\.csv: the first line is longer than 256 KiB/);
  });

  it('may begin behind a mark, be cut, and pass over lines', () => {
    assert.deepEqual(lines('xxa\nb\n', { start: 2 }), ['1 a', '2 b']);
    assert.deepEqual(lines('a\nb\nc\n', { most: 4 }), ['1 a', '2 b']);
    assert.deepEqual(lines('a\nb\nc\n', { skip: 2 }), ['3 c']);
    assert.match(String(lines('a\nb\nc\n', { skip: 3 })), /skip 3 passes over the whole file, which has 3 lines/);
    assert.match(String(lines('')), /the file is empty/);
    assert.match(String(lines('\0\0')), /the file is empty/);
    const long = lines(Array.from({ length: 2500 }, (_, i) => `${i}\n`).join(''), { skip: 100 });
    assert.ok(Array.isArray(long) && long.length === 2000 && long[0] === '101 100');
  });

  it('knows the byte that ends a line, and where each begins', () => {
    for (const [text, lineEnd, starts] of [
      ['ab\ncd\n\nef', 10, [0, 3, 6, 7]],
      ['ab\r\ncd\r\n\r\nef', 10, [0, 4, 8, 10]],
      ['ab\rcd\r\ref', 13, [0, 3, 6, 7]],
    ] as const) {
      const read = head(text);
      assert.ok(typeof read === 'object');
      assert.equal(read.lineEnd, lineEnd);
      assert.deepEqual(
        starts.map((_, i) => byteOfLine(read, i + 1)),
        starts,
      );
    }
  });
});
