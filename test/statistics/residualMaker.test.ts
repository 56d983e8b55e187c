import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { orthonormal } from '../../src/statistics/orthonormal.ts';
import { byColumns, byMatrix, residualMaker, type ResidualMaker } from '../../src/statistics/residualMaker.ts';

/** Columns of numbers for so many runs, the weights of a quadratic form, levels, and a group for each run. */
const models = fc
  .record({ n: fc.integer({ min: 4, max: 24 }), columns: fc.integer({ min: 1, max: 5 }) })
  .chain(({ n, columns }) => {
    const numbers = fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: n, maxLength: n });
    return fc.record({
      n: fc.constant(n),
      columns: fc.array(numbers, { minLength: columns, maxLength: columns }),
      d: numbers,
      y: numbers,
      groups: fc.array(fc.integer({ min: 0, max: 2 }), { minLength: n, maxLength: n }),
    });
  });

const close = (found: ArrayLike<number>, wanted: ArrayLike<number>, what: string): void => {
  assert.equal(found.length, wanted.length);
  for (let i = 0; i < found.length; i++)
    assert.ok(
      Math.abs(found[i] - wanted[i]) <= 1e-9 * (1 + Math.abs(wanted[i])),
      `${what}: ${found[i]} is not ${wanted[i]}`,
    );
};

describe('residualMaker', () => {
  it('gives the same by its columns as by the matrix, whatever the model', () => {
    fc.assert(
      fc.property(models, ({ n, columns, d, y, groups }) => {
        const basis = orthonormal(columns, n);
        const members = [0, 1, 2].map((k) => groups.flatMap((group, i) => (group === k ? [i] : [])));
        const [found, wanted] = [byColumns(basis, n), byMatrix(basis, n)];
        const weights = Float64Array.from(d);
        close(found.diagonal, wanted.diagonal, 'diagonal');
        close(found.of(y), wanted.of(y), 'residuals');
        close(found.squares(members).flat(), wanted.squares(members).flat(), 'squares');
        const moments = (m: ResidualMaker): number[] => {
          const { mean, variance } = m.moments(weights, members);
          return [...mean, ...variance.flat()];
        };
        close(moments(found), moments(wanted), 'moments');
      }),
    );
  });

  it('takes 20,000 runs by their columns', () => {
    const n = 20_000;
    const columns = [Array.from({ length: n }, (_, i) => i % 2), Array.from({ length: n }, () => 1)];
    const maker = residualMaker(orthonormal(columns, n), n);
    const halves = [0, 1].map((half) => Array.from({ length: n / 2 }, (_, i) => 2 * i + half));
    // Each half's mean takes one residual of the half: sum of M_ij^2 is the trace of an idempotent matrix.
    close(maker.squares(halves).flat(), [n / 2 - 1, 0, 0, n / 2 - 1], 'squares');
    close(maker.moments(new Float64Array(n).fill(1), halves).mean, [n / 2 - 1, n / 2 - 1], 'mean');
  });
});
