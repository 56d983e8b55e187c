import { strict as assert } from 'node:assert';
import { resultant } from '../../src/signal/resultant.ts';

describe('resultant', () => {
  const x = Float64Array.of(3, -1, 0);
  const y = Float64Array.of(4, -2, 0);

  it('is the vector sum of each sample', () => {
    assert.deepEqual([...resultant([x, y, Float64Array.of(12, 2, 0)])], [13, 3, 0]);
    assert.deepEqual([...resultant([x])], [3, 1, 0]);
  });

  it('may be written over one of its axes', () => {
    const own = x.slice();
    assert.equal(resultant([own, y], own), own);
    assert.deepEqual([...own], [5, Math.sqrt(5), 0]);
  });

  it('refuses no axes, and axes of different lengths', () => {
    assert.throws(() => resultant([]), /at least one axis/);
    assert.throws(() => resultant([x, y.subarray(1)]), /different lengths/);
  });
});
