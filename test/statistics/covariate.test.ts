import { strict as assert } from 'node:assert';
import { adjustLevels, covariateSensitivity } from '../../src/statistics/covariate.ts';

describe('covariate sensitivity', () => {
  it('takes out a speed that explains the whole change', () => {
    // The level grows with speed^1 and B was driven 4 % slower: p = 1 leaves no change, p = 0 shows 4 %.
    const scatter = [1.01, 0.995, 1, 0.99];
    const speed = { a: [5, 5.02, 4.98, 5], b: [4.8, 4.82, 4.78, 4.8] };
    const band = { a: speed.a.map((v, k) => v * scatter[k]), b: speed.b.map((v, k) => v * scatter[3 - k]) };
    const rows = covariateSensitivity(band, speed);
    assert.deepEqual(
      rows.map(({ exponent }) => exponent),
      [0, 0.5, 1, 1.5],
    );
    const ratios = rows.map(({ row }) => row.ratio ?? NaN);
    assert.ok(Math.abs(ratios[0] - 0.96) < 1e-3 && Math.abs(ratios[2] - 1) < 1e-9 && ratios[3] > 1);
  });

  it('leaves levels at the reference as they are', () => {
    assert.deepEqual(adjustLevels([2, 3], [5, 10], 1, 5), [2, 1.5]);
    assert.deepEqual(adjustLevels([2, 3], [5, 10], 0, 5), [2, 3]);
  });

  it('refuses a covariate that is missing or not above 0', () => {
    assert.throws(() => adjustLevels([2, 3], [5], 1, 5), /2 levels but 1 values/);
    assert.throws(() => adjustLevels([2], [0], 1, 5), /must be above 0, but is 0/);
  });
});
