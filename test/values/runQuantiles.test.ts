import { strict as assert } from 'node:assert';
import { runQuantiles } from '../../src/values/runQuantiles.ts';

describe('quantiles over runs', () => {
  it('are taken bin by bin, and leave the levels as they are', () => {
    const levels = [4, 1, 3, 2, 5].map((level) => Float64Array.of(level, 10 * level, 7));
    assert.deepEqual(runQuantiles(levels, [0, 2, 1], [0, 0.25, 1]), [
      [1, 2, 5],
      [7, 7, 7],
      [10, 20, 50],
    ]);
    assert.deepEqual([...levels[0]], [4, 40, 7]);
  });
});
