import { strict as assert } from 'node:assert';
import { pooledT } from '../../src/statistics/pooledT.ts';

describe('pooledT', () => {
  it('pools the variance over both sides, by hand: (2 x 1 + 3 x 4) / 5 over 3 and 4 runs', () => {
    const found = pooledT([1, 2, 3], [4, 8, 6, 6, 6, 6].slice(0, 4));
    assert.ok(found);
    // Squares about the means: 2 of A, 8 of B.
    assert.equal(found.df, 5);
    assert.ok(Math.abs(found.difference - 4) < 1e-15);
    assert.ok(Math.abs(found.standardError - Math.sqrt((10 / 5) * (1 / 3 + 1 / 4))) < 1e-15);
  });

  it('gets by with one run on a side, whose scatter the other side tells', () => {
    const found = pooledT([1], [2, 4]);
    assert.ok(found);
    assert.equal(found.df, 1);
    assert.ok(Math.abs(found.standardError - Math.sqrt(2 * 1.5)) < 1e-15);
    assert.equal(pooledT([2, 4], [1])?.difference, -2);
  });

  it('gives none with no run on a side, one on each, or without scatter', () => {
    assert.equal(pooledT([], [1, 2, 3]), undefined);
    assert.equal(pooledT([1, 2, 3], []), undefined);
    assert.equal(pooledT([1], [2]), undefined);
    assert.equal(pooledT([0.1, 0.1, 0.1], [0.3, 0.3, 0.3]), undefined);
  });
});
