import { strict as assert } from 'node:assert';
import { copyInRoom, reuseRooms, roomForNumbers, takeRoomsBack } from '../../src/readers/rooms.ts';

describe('memory that readings share one after another', () => {
  it('is fresh until it is asked to be handed out again, and then comes again once it was taken back', () => {
    assert.equal(roomForNumbers(100).buffer.byteLength, 800);
    reuseRooms();
    const [first, second] = [roomForNumbers(100), roomForNumbers(100)];
    assert.notEqual(first.buffer, second.buffer);
    assert.deepEqual([first.length, second.length], [100, 100]);
    takeRoomsBack();
    const again = [roomForNumbers(90), roomForNumbers(101), roomForNumbers(100)];
    assert.deepEqual(
      again.map(({ buffer }) => [first.buffer, second.buffer].includes(buffer)),
      [true, true, false],
    );
    assert.deepEqual(
      again.map(({ length }) => length),
      [90, 101, 100],
    );
    takeRoomsBack();
  });

  it('holds copies of bytes', () => {
    const bytes = Uint8Array.of(1, 2, 3);
    const copy = copyInRoom(bytes);
    bytes[0] = 9;
    assert.deepEqual([...copy], [1, 2, 3]);
    takeRoomsBack();
  });

  it('is fresh beyond what is kept, and in no room that is far too large', () => {
    const large = roomForNumbers(5e6);
    assert.notEqual(roomForNumbers(5e6).buffer, large.buffer);
    takeRoomsBack();
    assert.notEqual(roomForNumbers(10).buffer, large.buffer);
    assert.equal(roomForNumbers(5e6).buffer, large.buffer);
    takeRoomsBack();
    // What no longer fits makes way.
    assert.equal(roomForNumbers(5.5e6).length, 5.5e6);
    takeRoomsBack();
    assert.notEqual(roomForNumbers(5e6).buffer, large.buffer);
    takeRoomsBack();
  });
});
