import { strict as assert } from 'node:assert';
import { fisherFSurvival } from '../../../src/statistics/distributions/fisherF.ts';
import { studentTTwoSided } from '../../../src/statistics/distributions/studentT.ts';

describe('P(F > f)', () => {
  it('is that of scipy 1.10.1, stats.f.sf, where it is small and for degrees of freedom that are not whole', () => {
    for (const [f, numerator, denominator, chance] of [
      [1, 1, 1, 0.5],
      [4, 2, 6, 0.0787172011662],
      [3.3, 3.5, 8.2, 0.0727142453791],
      [0.01, 2, 5, 0.990069582298],
      [250, 4, 9, 3.26409395032e-9],
      [19, 2, 2, 0.05],
    ]) {
      const found = fisherFSurvival(f, numerator, denominator);
      assert.ok(Math.abs(found - chance) < 1e-10 * chance, `${f}: ${found}`);
    }
  });

  it('is that of a t squared with one degree of freedom above, and turns over with the fraction', () => {
    for (const t of [0.1, 1.3, 4])
      assert.ok(Math.abs(fisherFSurvival(t * t, 1, 7.5) - studentTTwoSided(t, 7.5)) < 1e-13);
    for (const f of [0.2, 1, 5])
      assert.ok(Math.abs(fisherFSurvival(f, 3, 8) + fisherFSurvival(1 / f, 8, 3) - 1) < 1e-13);
  });

  it('is 1 at 0 and below, 0 at no end, and refuses what is no number of degrees of freedom', () => {
    assert.deepEqual([fisherFSurvival(0, 2, 3), fisherFSurvival(-4, 2, 3), fisherFSurvival(Infinity, 2, 3)], [1, 1, 0]);
    assert.throws(() => fisherFSurvival(1, 0, 3), /numerator/);
    assert.throws(() => fisherFSurvival(1, 2, NaN), /denominator/);
    assert.throws(() => fisherFSurvival(NaN, 2, 3), /f /);
  });
});
