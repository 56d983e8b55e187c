import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { sharedMemory } from '../../../src/numbers/compiled.ts';
import { RowsInPlace, rowsWork } from '../../../src/readers/text/rowsInPlace.ts';

describe('the lines of bytes that stand in a memory of two threads', () => {
  it('are those that end in a line feed, or in a return that none follows, however many there are', () => {
    const room = 40_000;
    const memory = sharedMemory(rowsWork + room + 64);
    assert.ok(RowsInPlace.workIn({ memory, at: rowsWork, capacity: 0 }, true), 'the loop can be had');
    const whole = new Uint8Array(memory.buffer, rowsWork, room + 64);
    const line = fc.constantFrom('\n', '1\n', '\n\n\n\n\n\n\n\n', '0.25,1\n', 'a text longer than a vector of bytes\n');
    const law = fc.property(
      fc.array(line, { minLength: 1, maxLength: 12 }),
      fc.integer({ min: 0, max: room }),
      fc.array(fc.tuple(fc.nat(room), fc.constantFrom('\r', '\r\n')), { maxLength: 2 }),
      (lines, length, returns) => {
        const some = lines.join('');
        let text = some.repeat(Math.ceil(room / some.length)).slice(0, length);
        for (const [at, end] of returns) if (at < length) text = text.slice(0, at) + end + text.slice(at + end.length);
        whole.fill(0);
        whole.set(new TextEncoder().encode(text));
        assert.equal(RowsInPlace.linesIn(whole, text.length), (text.match(/\n|\r(?!\n)/g) ?? []).length);
      },
    );
    fc.assert(law, { numRuns: 500 });
  });
});
