import { strict as assert } from 'node:assert';
import { missingSamples } from '../../../src/readers/clock/missing.ts';

describe('the samples that gaps leave out', () => {
  it('are those between stretches at the rate, to the nearest', () => {
    const stretches = (...starts: readonly number[]) =>
      starts.map((start, i) => ({ from: 8 * i, to: 8 * i + 8, start }));
    assert.equal(missingSamples(stretches(0), 4), 0);
    assert.equal(missingSamples(stretches(0, 2), 4), 0);
    assert.equal(missingSamples(stretches(0, 5), 4), 12);
    assert.equal(missingSamples(stretches(0, 5.1, 8.2), 4), 12 + 4);
    assert.equal(missingSamples(stretches(0, 1.5), 4), 0);
  });
});
