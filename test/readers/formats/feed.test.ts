import { strict as assert } from 'node:assert';
import { piecesOf } from '../../../src/readers/pieces.ts';
import { Feed } from '../../../src/readers/formats/feed.ts';
import { source } from '../memory.ts';

const feed = (text: string, most: number): Feed => {
  const whole = source(text);
  return new Feed(piecesOf({ ...whole, read: (at, length) => whole.read(at, Math.min(length, most)) }));
};
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe('bytes taken from pieces', () => {
  for (const most of [1, 3, 4, 100])
    it(`come in whatever lengths are asked for, from pieces of ${most}`, async () => {
      const from = feed('abcdefghij', most);
      assert.equal(textOf(await from.take(4)), 'abcd');
      assert.equal(textOf(await from.take(0)), '');
      await from.pass(3);
      assert.equal(textOf(await from.take(2)), 'hi');
      assert.equal(textOf(await from.take(9)), 'j');
      assert.equal(textOf(await from.take(9)), '');
      assert.equal(await from.pass(5), 0);
    });

  for (const most of [1, 3, 100])
    it(`may be looked at before they are taken, from pieces of ${most}`, async () => {
      const from = feed('abcdefg', most);
      assert.equal(textOf(await from.peek(2)), 'ab');
      assert.equal(textOf(await from.peek(4)), 'abcd');
      assert.equal(textOf(await from.take(3)), 'abc');
      assert.equal(await from.pass(2), 2);
      assert.equal(textOf(await from.peek(9)), 'fg');
      assert.equal(await from.pass(9), 2);
      assert.equal(textOf(await from.peek(1)), '');
    });

  for (const most of [1, 3, 100])
    it(`come as lines without their ends, from pieces of ${most}`, async () => {
      const from = feed('ab\ncd\r\n\nefghi\nj', most);
      const lines: (string | undefined)[] = [];
      for (let i = 0; i < 6; i++) lines.push(await from.line(100));
      assert.deepEqual(lines, ['ab', 'cd', '', 'efghi', 'j', undefined]);
    });

  it('are no line where it is too long', async () => {
    assert.equal(await feed('abcdefgh\n', 2).line(3), undefined);
    assert.equal(await feed('abcdefgh\n', 2).line(8), 'abcdefgh');
  });

  it('are copies, so that the next piece changes none', async () => {
    const shared = new Uint8Array(3);
    let turn = 0;
    const from = new Feed({
      next: () => Promise.resolve(turn++ < 2 ? shared.fill(turn) : undefined),
      failure: () => undefined,
      progress: () => 0,
      close: () => Promise.resolve(),
    });
    assert.deepEqual([...(await from.take(2))], [1, 1]);
    assert.deepEqual([...(await from.take(3))], [1, 2, 2]);
  });

  it('are passed over by many', async () => {
    const from = feed('x'.repeat(200_000) + 'end', 1000);
    await from.pass(200_000);
    assert.equal(textOf(await from.take(3)), 'end');
  });
});
