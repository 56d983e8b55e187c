import { strict as assert } from 'node:assert';
import { pairedT } from '../../src/statistics/pairedT.ts';

describe('pairedT', () => {
  it('is of the differences of the pairs, in the order given: 1, 3, 2 have mean 2 and variance 1', () => {
    const found = pairedT([5, 1, 9], [6, 4, 11]);
    assert.ok(found);
    assert.deepEqual([found.difference, found.df], [2, 2]);
    assert.ok(Math.abs(found.standardError - Math.sqrt(1 / 3)) < 1e-15);
  });

  it('is blind to what both runs of a pair share', () => {
    assert.deepEqual(pairedT([5, 101, 9], [6, 104, 11]), pairedT([5, 1, 9], [6, 4, 11]));
  });

  it('gives none with unequal counts, fewer than 2 pairs, or differences that are all the same', () => {
    assert.equal(pairedT([1, 2], [2, 4, 6]), undefined);
    assert.equal(pairedT([1, 2, 9], [2, 4]), undefined);
    assert.equal(pairedT([1], [2]), undefined);
    assert.equal(pairedT([], []), undefined);
    assert.equal(pairedT([1, 2, 3], [2, 3, 4]), undefined);
    assert.equal(pairedT([1, 2], [2, 4])?.df, 1);
  });
});
