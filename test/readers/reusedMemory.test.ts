import { strict as assert } from 'node:assert';
import { factsOf } from '../../src/readers/columnFacts.ts';
import { ColumnVectors } from '../../src/readers/columnVectors.ts';
import { memoryForNumbers as freshMemory } from '../../src/readers/reusedMemory.ts';

/** One of its own, as it is never let go again once it was asked for: the other tests of this process have fresh memory. */
const own = `${new URL('../../src/readers/reusedMemory.ts', import.meta.url).href}?own`;
const { copyInMemory, reuseMemory, memoryForNumbers, takeMemoryBack } = (await import(
  own
)) as typeof import('../../src/readers/reusedMemory.ts');

describe('memory that readings share one after another', () => {
  after(() => {
    assert.equal(freshMemory(100).buffer.byteLength, 800, 'that of other tests is not shared');
  });

  it('is fresh until it is asked to be handed out again, and then comes again once it was taken back', () => {
    assert.equal(memoryForNumbers(100).buffer.byteLength, 800);
    reuseMemory();
    const [first, second] = [memoryForNumbers(100), memoryForNumbers(100)];
    assert.equal(first.buffer, second.buffer);
    assert.equal(second.byteOffset, first.byteOffset + 800);
    assert.deepEqual([first.length, second.length], [100, 100]);
    takeMemoryBack();
    const again = memoryForNumbers(90);
    assert.deepEqual([again.buffer === first.buffer, again.byteOffset, again.length], [true, first.byteOffset, 90]);
    takeMemoryBack();
  });

  it('is looked at in place by the compiled loops, beside what these work with', () => {
    const values = memoryForNumbers(3000);
    for (let i = 0; i < values.length; i++) values[i] = ((i * 37) % 1000) / 100;
    const elsewhere = Float64Array.from(values);
    const [here, there] = [values, elsewhere].map((numbers) =>
      ColumnVectors.for(numbers)!.stepOnGrid(numbers, 0, 1000, 100),
    );
    assert.equal(here, there);
    assert.ok(Math.abs(here! - 0.01) < 1e-12, `the step is ${here}`);
    assert.notEqual(ColumnVectors.for(values), ColumnVectors.for(elsewhere));
    assert.deepEqual(values, elsewhere);
    assert.deepEqual(factsOf(values), factsOf(elsewhere));
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
