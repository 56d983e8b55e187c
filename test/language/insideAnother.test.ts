import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import type { Diagnostic } from '../../src/language/diagnostic.ts';
import { insideAnother } from '../../src/language/insideAnother.ts';

const place = fc.tuple(fc.nat(12), fc.nat(6)).map(([from, length]) => ({ from, to: from + length }));
const at = ({ from, to }: { from: number; to: number }): Diagnostic => ({
  code: 'a.code',
  facts: {},
  message: 'A message.',
  severity: 'error',
  place: { from, to },
});

describe('messages inside others', () => {
  it('are those whose place lies within that of another, and nothing lies within itself', () => {
    fc.assert(
      fc.property(fc.array(place), fc.array(place), (covering, others) => {
        const covers = covering.map(at);
        const isInside = insideAnother(covers);
        for (const one of [...covers, ...others.map(at)]) {
          const expected = covers.some(
            (cover) => cover !== one && cover.place.from <= one.place.from && one.place.to <= cover.place.to,
          );
          assert.equal(isInside(one), expected);
        }
      }),
    );
  });
});
