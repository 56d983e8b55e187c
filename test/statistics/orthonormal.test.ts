import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { dot, orthonormal, without } from '../../src/statistics/orthonormal.ts';

const column = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 6, maxLength: 6 });
const size = (of: ArrayLike<number>): number => Math.sqrt(dot(of, of));

describe('columns made orthonormal', () => {
  it('are of length 1, at right angles, and leave nothing of the columns that they were made of', () => {
    fc.assert(
      fc.property(fc.array(column, { maxLength: 5 }), (columns) => {
        const basis = orthonormal(columns, 6);
        basis.forEach((one, i) => {
          assert.ok(Math.abs(size(one) - 1) < 1e-12);
          for (const other of basis.slice(i + 1)) assert.ok(Math.abs(dot(one, other)) < 1e-12);
        });
        for (const one of columns)
          assert.ok(size(without(Float64Array.from(one), basis)) <= 1e-7 * size(one), String(one));
      }),
    );
  });

  it('are as many as the columns say something of their own, in their order', () => {
    const [ones, line] = [
      [1, 1, 1, 1],
      [1, 2, 3, 4],
    ];
    const basis = orthonormal([ones, [0, 0, 0, 0], line, [3, 5, 7, 9], [1, 0, 0, 0]], 4);
    assert.equal(basis.length, 3);
    assert.deepEqual([...basis[0]], [0.5, 0.5, 0.5, 0.5]);
    const root = Math.sqrt(5);
    [-1.5 / root, -0.5 / root, 0.5 / root, 1.5 / root].forEach((one, i) =>
      assert.ok(Math.abs(basis[1][i] - one) < 1e-15),
    );
    assert.deepEqual(orthonormal([], 4), []);
  });

  it('stay at right angles where two columns are all but the same, and take those as one that differ by rounding', () => {
    const [base, near] = [
      [1, 2, 3],
      [1 + 1e-6, 2, 3],
    ];
    const basis = orthonormal([base, near], 3);
    assert.equal(basis.length, 2);
    assert.ok(Math.abs(dot(basis[0], basis[1])) < 1e-15);
    assert.equal(orthonormal([base, [1 + 1e-11, 2, 3]], 3).length, 1);
  });

  it('need a number for each run', () => {
    assert.throws(() => orthonormal([[1, 2, 3]], 4), /each of 4 runs, and has 3/);
  });
});

describe('what of a column lies in none of others', () => {
  it('is the column less its parts along them, which stay as they are', () => {
    const given = Float64Array.of(3, 4, 5);
    assert.deepEqual([...without(given, [Float64Array.of(1, 0, 0), Float64Array.of(0, 0, 1)])], [0, 4, 0]);
    assert.deepEqual([...given], [3, 4, 5]);
    assert.equal(dot([1, 2, 3], [4, -5, 6]), 12);
  });
});
