import { strict as assert } from 'node:assert';
import { HeldText } from '../../../src/readers/text/heldText.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const newline = 10;

/** What is held of a text that came in pieces, in a work space of 4 bytes. */
function held(pieces: readonly string[], quoted = false): HeldText {
  const text = new HeldText(new Uint8Array(4), newline, quoted);
  for (const piece of pieces) text.append(bytesOf(piece));
  return text;
}
const textOf = ({ bytes, length }: HeldText): string => new TextDecoder().decode(bytes.subarray(0, length));

describe('bytes of a text that were not read yet', () => {
  it('are all there, with one byte free behind them, and go from the front', () => {
    const text = held(['a,b', '\n1,2\n', '', '3,4']);
    assert.equal(textOf(text), 'a,b\n1,2\n3,4');
    assert.ok(text.bytes.length > text.length, 'no byte is free');
    const full = held(['abcd']);
    assert.deepEqual([textOf(full), full.bytes.length > 4], ['abcd', true]);
    assert.equal(held(['abc']).bytes.length, 4);
    text.drop(4);
    assert.equal(textOf(text), '1,2\n3,4');
    text.append(bytesOf('\n'));
    assert.equal(textOf(text), '1,2\n3,4\n');
  });

  it('end a line at its last end, outside of quotes where lines may end within them', () => {
    for (const [text, plain, quoted] of [
      ['a\nb', 2, 2],
      ['a', 0, 0],
      ['a\n', 2, 2],
      ['a\n"b\n', 5, 2],
      ['"a\nb"\nc', 6, 6],
      ['"a\n', 3, 0],
    ] as const)
      assert.deepEqual([held([text]).lastLineEnd(), held([text], true).lastLineEnd()], [plain, quoted], text);
  });

  it('keep one of the zeros at their end, and none once the text is over', () => {
    const text = held(['1,2\n\0\0', '\0\u001a\0']);
    assert.equal(textOf(text), '1,2\n\0');
    assert.equal(text.hasZerosAtEnd, false);
    text.append(bytesOf('3'));
    assert.equal(textOf(text), '1,2\n\x003');
    text.trimZeros(0);
    assert.equal(text.hasZerosAtEnd, false);
    text.append(bytesOf('\0\0'));
    text.trimZeros(0);
    assert.deepEqual([textOf(text), text.hasZerosAtEnd], ['1,2\n\x003', true]);
    const empty = held(['\0\0\0']);
    empty.trimZeros(0);
    assert.deepEqual([empty.length, empty.hasZerosAtEnd], [0, true]);
  });
});
