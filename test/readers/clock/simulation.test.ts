import { strict as assert } from 'node:assert';
import { noise } from '../../../scripts/simulate/noise.ts';
import { clockOf, unsureBy } from '../../../src/readers/clock/clock.ts';
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

  it('near a sample a unit, whose losses look like rounding, give a rate within 0.1 % or a word about it', function () {
    this.timeout(120_000);
    const random = noise(3);
    let warned = 0;
    for (const about of [995, 998, 1000])
      for (const share of [0, 0.003])
        for (let k = 0; k < 3; k++) {
          const [rate, phase] = [about * (1 + 1e-4 * (2 * random.uniform() - 1)), random.uniform()];
          const exact = Array.from({ length: 4000 }, (_, i) => (i + phase + 0.02 * random.gaussian()) / rate);
          const kept = exact.filter(() => random.uniform() >= share);
          const clock = clockOf(
            Float64Array.from(kept, (t) => Math.floor(1000 * (t + 1)) / 1000),
            0.001,
          )!;
          const isTold = unsureBy(clock) !== undefined;
          if (isTold) warned++;
          const off = Math.abs(clock.rate / rate - 1);
          assert.ok(isTold || off <= 1e-3, `${rate} Hz, ${share} lost: ${off} off`);
        }
    assert.ok(warned < 18, 'some are right without a word');
  });
});
