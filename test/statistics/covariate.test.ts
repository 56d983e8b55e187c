import { strict as assert } from 'node:assert';
import { compare } from '../../scripts/simulate/compareTwo.ts';
import type { Levels } from '../../src/statistics/comparison.ts';
import { covariateSensitivity, type CovariateRow } from '../../src/statistics/covariate.ts';

/** Of two conditions without a known order. */
function sensitivity(band: Levels, covariate: Levels, exponents: readonly number[]): CovariateRow[] {
  const of = (condition: string, levels: readonly number[]) => levels.map(() => ({ condition, stratum: '' }));
  const runs = [...of('A', band.a), ...of('B', band.b)];
  const study = { runs, change: { from: 'A', to: 'B' }, options: {} };
  return covariateSensitivity([...band.a, ...band.b], [...covariate.a, ...covariate.b], study, exponents);
}

describe('covariate sensitivity', () => {
  it('takes out a speed that explains the whole change', () => {
    // The level grows with speed^1 and B was driven 4 % slower: p = 1 leaves no change, p = 0 shows 4 %.
    const scatter = [1.01, 0.995, 1, 0.99];
    const speed = { a: [5, 5.02, 4.98, 5], b: [4.8, 4.82, 4.78, 4.8] };
    const band = { a: speed.a.map((v, k) => v * scatter[k]), b: speed.b.map((v, k) => v * scatter[3 - k]) };
    const rows = sensitivity(band, speed, [0, 0.5, 1, 1.5]);
    assert.deepEqual(
      rows.map(({ exponent }) => exponent),
      [0, 0.5, 1, 1.5],
    );
    const ratios = rows.map(({ row }) => row.ratio ?? NaN);
    assert.ok(Math.abs(ratios[0] - 0.96) < 1e-3 && Math.abs(ratios[2] - 1) < 1e-9 && ratios[3] > 1);
  });

  it('without growth is the comparison itself, and by any growth where the covariate is the same for all', () => {
    const band = { a: [1, 1.1, 1.05], b: [0.9, 0.95, 0.93] };
    const [plain] = compare([band]).rows;
    const same = { a: [5, 5, 5], b: [5, 5, 5] };
    for (const { row } of sensitivity(band, same, [0, 1, 2])) assert.equal(row.ratio, plain.ratio);
    const faster = { a: [5, 5, 5], b: [6, 6, 6] };
    const [none, squared] = sensitivity(band, faster, [0, 2]);
    assert.ok(Math.abs((none.row.ratio ?? 0) - (plain.ratio ?? 1)) < 1e-12);
    assert.ok(Math.abs((squared.row.ratio ?? 0) - (plain.ratio ?? 1) * (5 / 6) ** 2) < 1e-12);
  });

  it('takes values below 1 as any others, and none that are not above 0', () => {
    const band = { a: [1, 1.1, 1.05], b: [0.9, 0.95, 0.93] };
    const of = (unit: number, first = 5): number | undefined =>
      sensitivity(band, { a: [first, 5, 5].map((v) => v * unit), b: [6, 6, 6].map((v) => v * unit) }, [2])[0].row.ratio;
    assert.ok(Math.abs((of(0.1) ?? 0) - (of(1) ?? 1)) < 1e-12, `${of(0.1)} is not ${of(1)}`);
    for (const wrong of [0, -1, NaN, Infinity])
      assert.throws(() => of(1, wrong), /the covariate must be above 0/, String(wrong));
  });

  it('takes the band as one by itself, whatever the comparison named', () => {
    const band = { a: [1, 1.1, 1.05], b: [0.9, 0.95, 0.93] };
    const [{ row }] = sensitivity(band, { a: [5, 5, 5], b: [5, 5, 5] }, [1]);
    assert.deepEqual([row.primary, row.family], [false, 1]);
  });

  it('refuses a covariate that is missing or not above 0', () => {
    const band = { a: [2, 3], b: [4, 5] };
    const on = (a: number[], b: number[]) => () => sensitivity(band, { a, b }, [1]);
    assert.throws(on([5], [5, 5]), /4 levels but 3 values/);
    assert.throws(on([5, 5], [5, 0]), /must be above 0, but is 0/);
    assert.throws(on([5, Infinity], [5, 5]), /must be above 0, but is Infinity/);
  });
});
