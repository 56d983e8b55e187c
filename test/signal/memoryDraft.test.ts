import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { MemoryDraft } from '../../src/signal/memoryDraft.ts';

describe('MemoryDraft', () => {
  it('gives places that do not touch, begin at 16 bytes and hold what was asked for', () => {
    const piece = fc.record({ kind: fc.constantFrom('room', 'numbers', 'words'), count: fc.nat(300) });
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        const draft = new MemoryDraft();
        const places = pieces.map(({ kind, count }, k) => {
          if (kind === 'words') return draft.words(Array<number>(count).fill(k + 1));
          return kind === 'room' ? draft.room(count) : draft.numbers(new Float64Array(count).fill(k + 1));
        });
        const memory = new ArrayBuffer(draft.bytes);
        draft.writeTo(memory);
        pieces.forEach(({ kind, count }, k) => {
          assert.equal(places[k] % 16, 0, 'begins at 16 bytes');
          const values =
            kind === 'words' ? new Int32Array(memory, places[k], count) : new Float64Array(memory, places[k], count);
          assert.ok(
            values.every((value) => value === (kind === 'room' ? 0 : k + 1)),
            'holds its own values',
          );
        });
      }),
    );
  });
});
