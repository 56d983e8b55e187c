import { strict as assert } from 'node:assert';
import { densityRatio } from '../../src/statistics/densityRatio.ts';
import { studentTInterval } from '../../src/statistics/distributions/studentT.ts';
import { seededRandom } from '../../src/statistics/random.ts';

const random = seededRandom(3);
const bins = 7;
const run = (scale: number): Float64Array => Float64Array.from({ length: bins }, () => scale * (1 + random()));
const [a, b] = [1, 0.5].map((scale) => Array.from({ length: 4 }, () => run(scale)));

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
const variance = (values: readonly number[]): number =>
  values.reduce((sum, one) => sum + (one - mean(values)) ** 2, 0) / (values.length - 1);

describe('the ratio of densities', () => {
  it('is that of the geometric means, its variance taken over two bins either side, its t for all bins together', () => {
    const found = densityRatio(a, b, 0.95) ?? assert.fail();
    const logs = (side: readonly Float64Array[], k: number): number[] => side.map((one) => Math.log(one[k]));
    const own = Array.from({ length: bins }, (_, k) => (variance(logs(a, k)) + variance(logs(b, k))) / 4);
    for (let k = 0; k < bins; k++) {
      const difference = mean(logs(b, k)) - mean(logs(a, k));
      const reach =
        studentTInterval(1 - 0.05 / bins, 15) * Math.sqrt(mean(own.slice(Math.max(0, k - 2), Math.min(bins, k + 3))));
      assert.ok(Math.abs(Math.log(found.ratio[k]) - difference) < 1e-12);
      assert.ok(Math.abs(Math.log(found.low[k]) - (difference - reach)) < 1e-9);
      assert.ok(Math.abs(Math.log(found.high[k]) - (difference + reach)) < 1e-9);
    }
  });

  it('needs four runs a side, and something in every bin', () => {
    assert.equal(densityRatio(a.slice(1), b, 0.95), undefined);
    assert.equal(densityRatio([...a, new Float64Array(bins)], b, 0.95), undefined);
    assert.deepEqual(densityRatio(a, a, 0.95)?.ratio, new Float64Array(bins).fill(1));
  });
});
