import { strict as assert } from 'node:assert';
import { copyInMemory, reuseMemory, memoryForNumbers, takeMemoryBack } from '../../src/readers/reusedMemory.ts';

describe('memory that readings share one after another', () => {
  it('is fresh until it is asked to be handed out again, and then comes again once it was taken back', () => {
    assert.equal(memoryForNumbers(100).buffer.byteLength, 800);
    reuseMemory();
    const [first, second] = [memoryForNumbers(100), memoryForNumbers(100)];
    assert.notEqual(first.buffer, second.buffer);
    assert.deepEqual([first.length, second.length], [100, 100]);
    takeMemoryBack();
    const again = [memoryForNumbers(90), memoryForNumbers(101), memoryForNumbers(100)];
    assert.deepEqual(
      again.map(({ buffer }) => [first.buffer, second.buffer].includes(buffer)),
      [true, true, false],
    );
    assert.deepEqual(
      again.map(({ length }) => length),
      [90, 101, 100],
    );
    takeMemoryBack();
  });

  it('holds copies of bytes', () => {
    const bytes = Uint8Array.of(1, 2, 3);
    const copy = copyInMemory(bytes);
    bytes[0] = 9;
    assert.deepEqual([...copy], [1, 2, 3]);
    takeMemoryBack();
  });

  it('is fresh beyond what is kept, and in none that is far too large', () => {
    const large = memoryForNumbers(5e6);
    assert.notEqual(memoryForNumbers(5e6).buffer, large.buffer);
    takeMemoryBack();
    assert.notEqual(memoryForNumbers(10).buffer, large.buffer);
    assert.equal(memoryForNumbers(5e6).buffer, large.buffer);
    takeMemoryBack();
    // What no longer fits makes way.
    assert.equal(memoryForNumbers(5.5e6).length, 5.5e6);
    takeMemoryBack();
    assert.notEqual(memoryForNumbers(5e6).buffer, large.buffer);
    takeMemoryBack();
  });
});
