import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { plainStep, stepOnGrid } from '../../../src/readers/checks/stepOnGrid.ts';
import { ColumnVectors } from '../../../src/readers/columnVectors.ts';

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

  it('is found where samples beside each other differ by ten units of their last digit or more', () => {
    const values = Float64Array.from({ length: 500 }, (_, i) => Number((((i * 17) % 500) / 1000).toFixed(3)));
    const changes = values.slice(1).map((value, i) => Math.abs(value - values[i]));
    assert.ok(Math.min(...changes) > 0.01, 'no two beside each other are within ten units');
    assert.equal(stepOnGrid(values), sortedStep(values));
  });

  it('is left to a sort where samples are on no grid, all alike, or far apart', () => {
    assert.equal(stepOnGrid(Float64Array.from({ length: 100 }, (_, i) => Math.sin(i))), undefined);
    assert.equal(stepOnGrid(Float64Array.of(0.1, 0.2, 0.30000001, 0.4)), undefined);
    assert.equal(stepOnGrid(Float64Array.of(2, 2, 2)), undefined);
    assert.equal(stepOnGrid(Float64Array.of(0, 1, 1e6)), undefined);
    assert.equal(stepOnGrid(Float64Array.of(0, NaN, 1, 2)), undefined);
  });

  it('is found by vectors as by the plain loops, whatever the samples are', () => {
    const grid = fc.record({
      decimals: fc.integer({ min: 0, max: 9 }),
      first: fc.integer({ min: -40_000, max: 40_000 }),
      units: fc.array(fc.integer({ min: 0, max: 5000 }), { minLength: 2, maxLength: 80 }),
      off: fc.constantFrom(0, 0, 0, 1e-3, 0.5),
    });
    const law = fc.property(grid, ({ decimals, first, units, off }) => {
      const scale = Number(`1e${decimals}`);
      const values = Float64Array.from([0, ...units], (unit, i) => (first + unit + (i === 1 ? off : 0)) / scale);
      const last = Math.round(values.reduce((most, value) => Math.max(most, value)) * scale);
      const found = ColumnVectors.here()?.stepOnGrid(values, first, last - first + 1, scale);
      assert.equal(found, plainStep(values, first, last - first + 1, scale));
    });
    fc.assert(law, { numRuns: 500 });
    const [few, many] = [8191, 20_001].map((length) =>
      Float64Array.from({ length }, (_, i) => ((i * i) % 3001) / 1000),
    );
    for (const values of [few, many])
      assert.equal(ColumnVectors.here()?.stepOnGrid(values, 0, 3001, 1000), plainStep(values, 0, 3001, 1000));
    assert.equal(ColumnVectors.here()?.stepOnGrid(few, 0, 2e6, 1000), undefined);
  });
});
