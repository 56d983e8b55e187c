import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { sortNumbers } from '../../src/signal/sort.ts';

const asSorted = (values: readonly number[]): void => {
  const given = Float64Array.from(values);
  const wanted = given.slice().sort();
  assert.equal(sortNumbers(given), given);
  // Zeros of either sign are alike to whoever asks for differences.
  assert.deepEqual(
    [...given].map((value) => value + 0),
    [...wanted].map((value) => value + 0),
  );
};

describe('sorting of numbers', () => {
  it('gives what the language’s own sort gives, of any numbers', () => {
    fc.assert(fc.property(fc.array(fc.double({ noNaN: true }), { maxLength: 300 }), asSorted));
    fc.assert(fc.property(fc.array(fc.integer({ min: -4, max: 4 }), { maxLength: 300 }), asSorted));
  });

  it('sorts what crowds in one place, and what lies as far apart as doubles reach', () => {
    asSorted([1e9, ...Array.from({ length: 200 }, (_, i) => ((i * 37) % 200) / 1e6)]);
    asSorted([Number.MAX_VALUE, -Number.MAX_VALUE, 0, 5e-324]);
    asSorted([Infinity, 1, -Infinity, 0]);
    asSorted([2, 2, 2]);
    asSorted([]);
  });

  it('leaves what is no number at the end', () => {
    assert.deepEqual([...sortNumbers(Float64Array.of(3, NaN, 1))], [1, 3, NaN]);
  });
});
