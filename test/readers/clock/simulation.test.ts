import { strict as assert } from 'node:assert';
import { simulateClocks } from '../../../scripts/simulate/clocks.ts';

describe('clocks that go wrong, by simulation', () => {
  it('give a rate within 0.1 % or a word about it, and no gross error in silence', async function () {
    this.timeout(120_000);
    const { counts, broken } = await simulateClocks(80, 5);
    assert.deepEqual(broken, []);
    const files = counts.reduce((sum, one) => sum + one.files, 0);
    const right = counts.reduce((sum, one) => sum + one.right, 0);
    assert.ok(right > 0.85 * files, `${right} of ${files}`);
  });
});
