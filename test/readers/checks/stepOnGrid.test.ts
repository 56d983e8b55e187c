import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { stepOnGrid } from '../../../src/readers/checks/stepOnGrid.ts';

/** The smallest difference of neighbours among the sorted values. */
function sortedStep(values: Float64Array): number {
  const sorted = values.slice().sort();
  const steps = [...sorted.slice(1)].map((value, i) => value - sorted[i]).filter((step) => step > 0);
  return Math.min(...steps);
}

describe('the step of samples that were written with so many decimals', () => {
  it('is that of the sorted samples, to the bit', () => {
    const written = fc.tuple(
      fc.integer({ min: 0, max: 6 }),
      fc.integer({ min: -2000, max: 2000 }),
      fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 100, maxLength: 200 }),
    );
    let found = 0;
    fc.assert(
      fc.property(written, ([decimals, offset, units]) => {
        const values = Float64Array.from(units, (unit) => Number(`${offset + unit}e-${decimals}`));
        const step = stepOnGrid(values);
        if (step === undefined) return;
        found++;
        assert.equal(step, sortedStep(values));
      }),
    );
    assert.ok(found > 50, String(found));
  });

  it('is found of a grid that is coarser than its last digit', () => {
    const values = Float64Array.from({ length: 200 }, (_, i) => (i % 23) * 0.004);
    const written = values.map((value) => Number(value.toFixed(3)));
    assert.equal(stepOnGrid(written), sortedStep(written));
  });

  it('is left to a sort where samples are on no grid, all alike, or far apart', () => {
    assert.equal(stepOnGrid(Float64Array.from({ length: 100 }, (_, i) => Math.sin(i))), undefined);
    assert.equal(stepOnGrid(Float64Array.of(0.1, 0.2, 0.30000001, 0.4)), undefined);
    assert.equal(stepOnGrid(Float64Array.of(2, 2, 2)), undefined);
    assert.equal(stepOnGrid(Float64Array.of(0, 1, 1e6)), undefined);
    assert.equal(stepOnGrid(Float64Array.of(0, NaN, 1, 2)), undefined);
  });
});
