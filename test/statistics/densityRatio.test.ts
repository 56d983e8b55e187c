import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { compare } from '../../src/statistics/compare.ts';
import { densityRatio } from '../../src/statistics/densityRatio.ts';

const density = fc
  .array(fc.double({ min: 1e-9, max: 1e3, noNaN: true }), { minLength: 4, maxLength: 4 })
  .map((values) => Float64Array.from(values));
const side = fc.array(density, { minLength: 3, maxLength: 6 });

describe('the ratio of densities', () => {
  it('is in each bin what a comparison of that bin alone says, squared', () => {
    fc.assert(
      fc.property(side, side, (a, b) => {
        const found = densityRatio(a, b, 0.95);
        assert.ok(found);
        for (let k = 0; k < 4; k++) {
          const levels = (runs: readonly Float64Array[]): number[] => runs.map((run) => Math.sqrt(run[k]));
          const {
            rows: [row],
          } = compare([{ a: levels(a), b: levels(b) }], { confidence: 0.95 });
          const near = (x: number, y: number): void =>
            assert.ok(Math.abs(Math.log(x) - 2 * Math.log(y)) < 1e-6, `${x} ${y * y}`);
          near(found.ratio[k], row.ratio ?? NaN);
          if (row.inference === undefined) continue;
          if (row.inference.interval.low > 1e-100) near(found.low[k], row.inference.interval.low);
          if (row.inference.interval.high < 1e100) near(found.high[k], row.inference.interval.high);
        }
      }),
    );
  });

  it('needs three runs a side, and something in every bin', () => {
    const run = Float64Array.of(1, 2);
    assert.equal(densityRatio([run, run], [run, run, run], 0.95), undefined);
    assert.equal(densityRatio([run, run, Float64Array.of(0, 1)], [run, run, run], 0.95), undefined);
    assert.deepEqual(densityRatio([run, run, run], [run, run, run], 0.95)?.ratio, Float64Array.of(1, 1));
  });
});
